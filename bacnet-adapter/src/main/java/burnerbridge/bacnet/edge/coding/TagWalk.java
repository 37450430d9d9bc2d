package burnerbridge.bacnet.edge.coding;

/** Walks over all tags of service data, whatever service they belong to. */
public final class TagWalk {
    /** Deeper nesting than any service has. */
    public static final int DEEPEST = 32;

    private TagWalk() {}

    /**
     * Whether every tag lies within the data, opening and closing tags pair up by number, and nothing is
     * nested more than {@value #DEEPEST} deep.
     */
    public static boolean isSound(Octets data) {
        Cursor cursor = new Cursor(data);
        int[] open = new int[DEEPEST];
        int depth = 0;
        while (cursor.more()) {
            Tag tag = Tag.read(cursor);
            if (tag == null) {
                return false;
            }
            if (tag.kind() == Tag.Kind.OPENING) {
                if (depth == DEEPEST) {
                    return false;
                }
                open[depth++] = tag.number();
            } else if (tag.kind() == Tag.Kind.CLOSING && (depth == 0 || open[--depth] != tag.number())) {
                return false;
            }
        }
        return depth == 0;
    }
}
