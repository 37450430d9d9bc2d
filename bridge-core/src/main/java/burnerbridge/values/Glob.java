package burnerbridge.values;

/** Names with {@code *} for any characters and {@code ?} for one; the time to match is bounded by the product of both lengths. */
record Glob(String pattern) {

    boolean matches(String text) {
        int at = 0;
        int in = 0;
        int star = -1;
        int resume = 0;
        while (in < text.length()) {
            if (at < pattern.length() && pattern.charAt(at) == '*') {
                star = at++;
                resume = in;
            } else if (at < pattern.length() && (pattern.charAt(at) == '?' || pattern.charAt(at) == text.charAt(in))) {
                at++;
                in++;
            } else if (star >= 0) {
                // The last star takes one character more.
                at = star + 1;
                in = ++resume;
            } else {
                return false;
            }
        }
        while (at < pattern.length() && pattern.charAt(at) == '*') {
            at++;
        }
        return at == pattern.length();
    }
}
