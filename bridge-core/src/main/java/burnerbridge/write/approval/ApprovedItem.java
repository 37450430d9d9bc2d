package burnerbridge.write.approval;

/**
 * One thing that a person approves.
 *
 * @param subject what it is of: {@code row load-limit of boiler-1}
 * @param what of the subject: {@code scale}
 * @param text as it is
 */
public record ApprovedItem(String subject, String what, String text) {

    record Key(String subject, String what) implements Comparable<Key> {
        @Override
        public int compareTo(Key other) {
            int first = subject.compareTo(other.subject);
            return first != 0 ? first : what.compareTo(other.what);
        }

        @Override
        public String toString() {
            return subject + ": " + what;
        }
    }

    Key key() {
        return new Key(subject, what);
    }
}
