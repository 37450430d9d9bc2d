package burnerbridge.line;

/** A line that is read and, by the templates that it was made with, written; both from its own thread. */
public record WritableLine(LineTransport transport, LineWrites writes) {}
