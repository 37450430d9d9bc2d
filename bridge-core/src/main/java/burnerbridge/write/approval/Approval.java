package burnerbridge.write.approval;

import burnerbridge.site.Name;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.TreeSet;

/**
 * What a person approved.
 *
 * @param hash of the items, 64 digits
 * @param by the name that the person gave; nobody has proved it
 * @param at UTC
 * @param believed whether the clock was believed to be right
 * @param identities of the controllers concerned, by their names
 * @param roles of their rows, by {@code load-limit of boiler-1}
 */
public record Approval(
        String hash,
        List<ApprovedItem> items,
        String by,
        Instant at,
        boolean believed,
        Map<Name, String> identities,
        Map<String, String> roles) {

    public Approval {
        items = List.copyOf(items);
        identities = Collections.unmodifiableMap(new TreeMap<>(identities));
        roles = Collections.unmodifiableMap(new TreeMap<>(roles));
        if (by.isBlank()) {
            throw new IllegalArgumentException("an approval has a name");
        }
        if (!hash.equals(ApprovedItems.hash(items))) {
            throw new IllegalArgumentException("the hash of an approval is that of its items");
        }
    }

    /** Approves what there is now. */
    public static Approval of(ApprovedItems now, String by, Instant at, boolean believed) {
        return new Approval(now.hash(), now.items(), by, at, believed, now.identities(), now.roles());
    }

    /** Whether what there is now is what was approved. */
    public boolean covers(ApprovedItems now) {
        return hash.equals(now.hash());
    }

    /** A sentence for each item that is not as it was approved, in their order; none where {@link #covers} holds. */
    public List<String> differences(ApprovedItems now) {
        Map<ApprovedItem.Key, String> was = ApprovedItems.byKey(items);
        Map<ApprovedItem.Key, String> is = ApprovedItems.byKey(now.items());
        TreeSet<ApprovedItem.Key> keys = new TreeSet<>(was.keySet());
        keys.addAll(is.keySet());
        List<String> sentences = new ArrayList<>();
        for (ApprovedItem.Key key : keys) {
            String before = was.get(key);
            String after = is.get(key);
            if (before == null) {
                sentences.add(key + " is new: " + after);
            } else if (after == null) {
                sentences.add(key + " was " + before + ", is no more");
            } else if (!before.equals(after)) {
                sentences.add(key + " was " + before + ", is " + after);
            }
        }
        return sentences;
    }

    /** A sentence for each row whose role is not what it was, and for each that came or went. */
    public List<String> roleChanges(ApprovedItems now) {
        TreeSet<String> rows = new TreeSet<>(roles.keySet());
        rows.addAll(now.roles().keySet());
        List<String> sentences = new ArrayList<>();
        for (String row : rows) {
            String before = roles.get(row);
            String after = now.roles().get(row);
            if (before == null) {
                sentences.add(row + " is new, with role " + after);
            } else if (after == null) {
                sentences.add(row + " had role " + before + " and is no more");
            } else if (!before.equals(after)) {
                sentences.add(row + " had role " + before + " and has role " + after);
            }
        }
        return sentences;
    }
}
