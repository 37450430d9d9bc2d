package burnerbridge.config.type;

import burnerbridge.site.WordOrder;
import java.util.LinkedHashMap;
import java.util.Map;

/** The words for the order of words and bytes. */
public final class Orders {
    public static final Map<String, WordOrder> BY_WORD = new LinkedHashMap<>();

    static {
        BY_WORD.put("high-word-first", new WordOrder(false, false));
        BY_WORD.put("low-word-first", new WordOrder(true, false));
        BY_WORD.put("high-word-first+swap-bytes", new WordOrder(false, true));
        BY_WORD.put("low-word-first+swap-bytes", new WordOrder(true, true));
    }

    private Orders() {}
}
