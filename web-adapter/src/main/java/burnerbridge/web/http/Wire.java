package burnerbridge.web.http;

import java.io.IOException;
import java.nio.ByteBuffer;

/** A connection as a visit sees it; nothing here waits. */
interface Wire {

    /** How many octets came; -1 where no more will. */
    int read(ByteBuffer into) throws IOException;

    int write(ByteBuffer from) throws IOException;

    /** Says that no more will be sent. */
    void endOutput() throws IOException;

    void close();
}
