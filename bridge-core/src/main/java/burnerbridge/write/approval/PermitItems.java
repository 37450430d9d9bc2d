package burnerbridge.write.approval;

import static burnerbridge.write.approval.ItemList.plain;
import static burnerbridge.write.approval.ItemList.sorted;

import burnerbridge.site.Bindings;
import burnerbridge.site.permit.Allowed;
import burnerbridge.site.permit.Purpose;
import burnerbridge.site.permit.Silence;
import burnerbridge.site.permit.WritePermit;
import java.util.stream.Collectors;

/** The permits, but for their reasons: those are for people, and decide neither bytes nor askers. */
final class PermitItems {
    private PermitItems() {}

    static void add(ItemList items, WritePermit permit) {
        ItemList.Subject of = items.of("permit " + permit.point());
        of.is("function", permit.function())
                .is(
                        "storage",
                        permit.storage().lifetimeWrites().isPresent()
                                ? permit.storage().lifetimeWrites().getAsLong() + " writes"
                                : "volatile");
        if (permit.purpose() instanceof Purpose.Asked asked) {
            asked(of, asked);
        } else if (permit.purpose() instanceof Purpose.Beat beat) {
            of.is("every", beat.every()).is("pattern", pattern(beat.pattern()));
        } else {
            throw new IllegalArgumentException("no purpose is " + permit.purpose());
        }
    }

    private static void asked(ItemList.Subject of, Purpose.Asked asked) {
        of.is("networks of BACnet", sorted(asked.from().bacnet()))
                .is("over MQTT", asked.from().mqtt())
                .is("allowed", allowed(asked.allowed()))
                .is("step", asked.step().map(ItemList::plain))
                .is("interval", asked.interval())
                .is("slot of MQTT", asked.mqttPriority());
        asked.silence()
                .ifPresent(
                        silence -> of.is("silent after", silence.after()).is("on silence", action(silence.action())));
    }

    private static String allowed(Allowed allowed) {
        return allowed instanceof Allowed.Range range
                ? plain(range.low()) + " to " + plain(range.high())
                : allowed.text();
    }

    private static String pattern(Purpose.Pattern pattern) {
        return pattern instanceof Purpose.Pattern.Count count ? "count to " + count.limit() : "toggle";
    }

    private static String action(Silence.Action action) {
        return action instanceof Silence.Action.Write write ? "write " + plain(write.value()) : "release";
    }

    static void add(ItemList items, WritePermit permit, Bindings.Binding binding) {
        items.of("binding of " + permit.point())
                .is("object", binding.object())
                .is("offset of the instance", binding.offset())
                .is(
                        "numbers of states",
                        binding.states().byState().entrySet().stream()
                                .map(entry -> entry.getKey() + " is " + entry.getValue())
                                .sorted()
                                .collect(Collectors.joining(", ")));
    }

    /** The object that is commanded: which one writes what is as much a part of who may ask. */
    static void addRequest(ItemList items, WritePermit permit, Bindings.Binding binding) {
        items.of("request object of " + permit.point())
                .is("object", binding.object())
                .is("offset of the instance", binding.offset());
    }
}
