package burnerbridge.write.audit;

/** What a record may tell besides its kind, in the order in which it is written. */
enum Detail {
    SOURCE("source"),
    POINT("point"),
    PREVIOUS("previous"),
    ASKED("asked"),
    CODE("code"),
    SENTENCE("sentence"),
    BYTES("bytes"),
    READ_BACK("readBack"),
    COUNT("count"),
    APPROVAL("approval"),
    MEMORY("memory"),
    RATCHET("ratchet"),
    FILE("file"),
    REMAINING("remaining");

    private final String word;

    Detail(String word) {
        this.word = word;
    }

    String word() {
        return word;
    }
}
