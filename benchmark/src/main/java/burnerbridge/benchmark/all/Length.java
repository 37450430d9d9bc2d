package burnerbridge.benchmark.all;

/** For how long everything is measured. */
enum Length {
    LONG(""),
    SHORT("**A short run**: each measurement for as short as it still means something; spreads are wide."),
    MOMENT("**A run for a moment**: it shows that every measurement works; its numbers mean nothing.");

    private final String warning;

    Length(String warning) {
        this.warning = warning;
    }

    /** What a reader of its table must know; empty for nothing. */
    String warning() {
        return warning;
    }
}
