package burnerbridge.bacnet.documents;

/** What every document says that lists what can be written. */
final class Cautions {
    static final String TEXT = "Caution: this is not a safety device and no part of a burner's protective system."
            + " Hard-wired limits and interlocks must work with this box unplugged. Adjusting a burner is for licensed,"
            + " competent people with combustion instruments. Local codes, the manufacturer's instructions and the"
            + " authority having jurisdiction come first. The bridge trusts the point list as it was typed: check every"
            + " point against the controller's own display before use.";

    private Cautions() {}
}
