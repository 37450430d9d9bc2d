package burnerbridge.write.approval;

import static burnerbridge.write.approval.ItemList.sorted;

import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.LineDefinition;
import burnerbridge.site.ReadRules;
import burnerbridge.site.TypeOptions;
import java.util.List;

/** The controllers concerned and their lines. */
final class ControllerItems {
    private ControllerItems() {}

    /** @param identity empty where it is not known */
    static void add(ItemList items, ControllerDefinition controller, String identity) {
        items.of("controller " + controller.name())
                .is("line", controller.line().text())
                .is("unit", controller.unit().number())
                .is("replies as any unit", controller.anyReplyUnit())
                .is("address offset", controller.addressOffset())
                .is("first object instance", controller.instanceBase())
                .is("type", controller.type().name().text())
                .is("identity", identity.isEmpty() ? "not known" : "'" + identity + "'");
        ItemList.Subject type = items.of("type of " + controller.name());
        rules(type, controller.type().rules());
        options(type, controller.type().options());
        RowItems.add(items, controller);
    }

    private static void rules(ItemList.Subject of, ReadRules rules) {
        of.is("tables are mirrored", rules.mirrored())
                .is("registers in one read", rules.limits().otherwise())
                .is(
                        "registers in one read of some",
                        sorted(rules.limits().ranges().stream()
                                .map(limit -> limit.range() + " " + limit.most())
                                .toList()))
                .is("pause", rules.pause())
                .is("reserved", sorted(rules.reserved()))
                .is("readable", sorted(rules.readable()));
    }

    private static void options(ItemList.Subject of, TypeOptions options) {
        of.is("identity point", options.identity())
                .is("watchdog", options.watchdog().map(ItemList::seconds))
                .is("readable as stated", stated(options.readable()))
                .is("protected", stated(options.guarded()))
                .is("tables are separate", options.separateTables());
    }

    private static String stated(List<TypeOptions.Stated> ranges) {
        return sorted(ranges.stream()
                .map(stated -> stated.written() + " = " + stated.range())
                .toList());
    }

    static void add(ItemList items, LineDefinition line) {
        ItemList.Subject of = items.of("line " + line.name());
        of.is("reply time-out", line.replyTimeout()).is("connect time-out", line.connectTimeout());
        LineDefinition.Endpoint endpoint = line.endpoint();
        if (endpoint instanceof LineDefinition.Tcp tcp) {
            of.is("kind", "Modbus TCP").is("host", tcp.host()).is("port", tcp.port());
        } else if (endpoint instanceof LineDefinition.RtuOverTcp rtu) {
            of.is("kind", "RTU over TCP")
                    .is("host", rtu.host())
                    .is("port", rtu.port())
                    .is("baud", rtu.baud());
        } else if (endpoint instanceof LineDefinition.Serial serial) {
            of.is("kind", "serial")
                    .is("port", serial.port())
                    .is("baud", serial.baud())
                    .is("parity", serial.parity())
                    .is("stop bits", serial.stopBits())
                    .is("transmitter", serial.rs485())
                    .is("echo", serial.echo());
        } else {
            throw new IllegalArgumentException("no kind of line is " + endpoint);
        }
    }
}
