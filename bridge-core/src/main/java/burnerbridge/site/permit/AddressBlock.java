package burnerbridge.site.permit;

import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A block of IPv4 addresses (RFC 4632): {@code 192.0.2.0/24}.
 *
 * @param address its first address as a number, the first octet the most significant; no bit behind the prefix is set
 * @param prefix how many leading bits all have in common, 0 to 32
 */
public record AddressBlock(int address, int prefix) {
    private static final String OCTET = "(25[0-5]|2[0-4]\\d|1?\\d?\\d)";
    private static final Pattern FORM =
            Pattern.compile(OCTET + "\\." + OCTET + "\\." + OCTET + "\\." + OCTET + "(?:/(3[0-2]|[12]?\\d))?");

    public AddressBlock {
        if (prefix < 0 || prefix > 32 || (address & ~mask(prefix)) != 0) {
            throw new IllegalArgumentException("a block of addresses has no bit set behind its prefix");
        }
    }

    /** An address alone is a block of one; empty where the text is neither, or has a bit set behind the prefix. */
    public static Optional<AddressBlock> parse(String text) {
        Matcher form = FORM.matcher(text);
        if (!form.matches()) {
            return Optional.empty();
        }
        int address = 0;
        for (int octet = 1; octet <= 4; octet++) {
            address = address << 8 | Integer.parseInt(form.group(octet));
        }
        int prefix = form.group(5) == null ? 32 : Integer.parseInt(form.group(5));
        return (address & ~mask(prefix)) != 0 ? Optional.empty() : Optional.of(new AddressBlock(address, prefix));
    }

    private static int mask(int prefix) {
        return prefix == 0 ? 0 : -1 << 32 - prefix;
    }

    /** Whether an address, as a number, is in it. */
    public boolean holds(int other) {
        return (other & mask(prefix)) == address;
    }

    @Override
    public String toString() {
        return (address >>> 24) + "." + (address >>> 16 & 0xFF) + "." + (address >>> 8 & 0xFF) + "." + (address & 0xFF)
                + (prefix == 32 ? "" : "/" + prefix);
    }
}
