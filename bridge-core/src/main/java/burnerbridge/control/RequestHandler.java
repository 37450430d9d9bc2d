package burnerbridge.control;

import java.io.IOException;

/** Answers the requests of one name that come over one connection; it may remember what it told there. */
public interface RequestHandler {

    /**
     * Answers on the connection's own thread. What it throws ends the connection.
     *
     * @throws RequestException where the request cannot be answered; told to the client
     * @throws IOException as the reply throws it
     */
    void answer(Request request, Reply reply) throws RequestException, IOException;
}
