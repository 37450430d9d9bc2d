package burnerbridge.bacnet.documents;

import burnerbridge.bacnet.device.Inventory;
import com.serotonin.bacnet4j.obj.BACnetObject;
import com.serotonin.bacnet4j.type.Encodable;
import com.serotonin.bacnet4j.type.constructed.SequenceOf;
import com.serotonin.bacnet4j.type.enumerated.PropertyIdentifier;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** The texts of states: each set of them once, under a number to which objects refer. */
final class StateTexts {
    private final Map<List<String>, Integer> numbers = new LinkedHashMap<>();

    private StateTexts() {}

    static StateTexts of(Inventory inventory) {
        StateTexts texts = new StateTexts();
        for (Inventory.Entry entry : inventory.entries()) {
            List<String> ofObject = textsOf(entry.object());
            if (!ofObject.isEmpty()) {
                texts.numbers.putIfAbsent(ofObject, texts.numbers.size() + 1);
            }
        }
        return texts;
    }

    private static List<String> textsOf(BACnetObject object) {
        Encodable states = object.get(PropertyIdentifier.stateText);
        if (states instanceof SequenceOf<?> list) {
            List<String> texts = new ArrayList<>();
            list.forEach(text -> texts.add(text.toString()));
            return texts;
        }
        Encodable inactive = object.get(PropertyIdentifier.inactiveText);
        Encodable active = object.get(PropertyIdentifier.activeText);
        return inactive == null || active == null ? List.of() : List.of(inactive.toString(), active.toString());
    }

    /** The number of an object's texts; empty where it has none. */
    String reference(BACnetObject object) {
        Integer number = numbers.get(textsOf(object));
        return number == null ? "" : number.toString();
    }

    String text() {
        StringBuilder text = new StringBuilder("#State Text Reference\r\n");
        int most = numbers.keySet().stream().mapToInt(List::size).max().orElse(2);
        List<String> head =
                new ArrayList<>(List.of("#Reference Number", "Text 1 or Inactive-Text", "Text 2 or Active-Text"));
        for (int i = 3; i <= most; i++) {
            head.add("Text " + i);
        }
        text.append(Cells.line(head));
        numbers.forEach((texts, number) -> {
            List<String> cells = new ArrayList<>(List.of(number.toString()));
            cells.addAll(texts);
            text.append(Cells.line(cells));
        });
        return text.toString();
    }
}
