package burnerbridge.benchmark.bacnet.device;

/** Whose device it is. */
public enum Side {
    /** With limits that nobody here reaches, so that the device is measured and not its patience. */
    OURS("ours"),
    /** Ours with the limits of a site that says nothing of them. */
    USUAL("ours with its usual limits"),
    LIBRARY("the library alone");

    private final String title;

    Side(String title) {
        this.title = title;
    }

    public String title() {
        return title;
    }
}
