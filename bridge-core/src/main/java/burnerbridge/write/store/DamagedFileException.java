package burnerbridge.write.store;

import java.io.IOException;

/** What a file holds is not what was written to it, or it is gone, or an older one is in its place. */
public final class DamagedFileException extends IOException {
    private static final long serialVersionUID = 1L;

    public DamagedFileException(String message) {
        super(message);
    }

    public DamagedFileException(String message, Throwable cause) {
        super(message, cause);
    }
}
