package burnerbridge.control;

import java.io.IOException;
import java.util.function.Consumer;
import tools.jackson.core.JsonGenerator;

/** Takes the lines of a reply; what has no room waits until the client has read, for a bounded time. */
public interface Reply {

    /** Sends one object, with none of the members {@code end} and {@code error}. */
    void line(Consumer<JsonGenerator> members) throws IOException;
}
