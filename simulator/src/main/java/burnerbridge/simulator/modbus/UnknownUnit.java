package burnerbridge.simulator.modbus;

/** What the server does with a request for a unit that it has not. */
public enum UnknownUnit {
    /** Answers exception 11, as a gateway whose target does not respond. */
    REFUSED,
    /** Does not answer. */
    SILENT
}
