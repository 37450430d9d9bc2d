package burnerbridge.write;

/** Why something is written. */
enum Cause {
    /** Somebody asked. */
    ASK,
    /** It came up since what won before is gone, or what kept it from being written has passed. */
    RISE,
    /** It stands, and is written again, since its controller lets go what is not. */
    REFRESH,
    /** Nobody asks any more. */
    SILENCE,
    /** The controller is told that the bridge is there. */
    HEARTBEAT
}
