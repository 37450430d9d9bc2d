package burnerbridge.daemon.outside;

import java.math.BigDecimal;
import java.util.List;
import java.util.Locale;

/** The points of the field device: what the list says of each, and how a person would read it by hand. */
final class FieldPoints {
    /** Object types of ASHRAE 135, clause 21: analog input, binary input, multi-state input. */
    enum Kind {
        ANALOG_INPUT(0),
        BINARY_INPUT(3),
        MULTI_STATE_INPUT(13);

        final int number;

        Kind(int number) {
            this.number = number;
        }

        String word() {
            return name().toLowerCase(Locale.ROOT).replace('_', '-');
        }
    }

    /**
     * One point.
     *
     * @param mbpollType how the reading program is to read it: {@code -t} and, for high word first, {@code
     *     -B}
     */
    record Field(
            String name,
            String table,
            int wire,
            String format,
            String order,
            String scale,
            String offset,
            String unit,
            int bacnetUnit,
            String states,
            List<String> mbpollType,
            Kind kind) {

        String object(int ordinal) {
            return kind.number + ":" + (1001 + ordinal);
        }

        /** Scaled by hand: raw × scale + offset. */
        BigDecimal byHand(BigDecimal raw) {
            BigDecimal scaled = scale.isEmpty() ? raw : raw.multiply(new BigDecimal(scale));
            return offset.isEmpty() ? scaled : scaled.add(new BigDecimal(offset));
        }
    }

    private static final String NO_UNIT = "";

    static final List<Field> ALL = List.of(
            analog("water-temperature", "input-register", 0, "int16", "", "0.1", "", "°C", 62, "-t", "3"),
            analog("flue-temperature", "input-register", 1, "uint16", "", "0.1", "", "°C", 62, "-t", "3"),
            analog("oxygen", "input-register", 2, "float32", "high-word-first", "", "", "%", 98, "-t", "3:float", "-B"),
            analog(
                    "gas-flow",
                    "holding-register",
                    20,
                    "float32",
                    "low-word-first",
                    "",
                    "",
                    "m3/h",
                    135,
                    "-t",
                    "4:float"),
            analog("gas-pressure", "holding-register", 13, "uint16", "", "0.01", "-1", "bar", 55, "-t", "4"),
            analog("starts", "holding-register", 12, "uint16", "", "", "", NO_UNIT, 95, "-t", "4"),
            new Field(
                    "phase",
                    "holding-register",
                    10,
                    "uint16",
                    "",
                    "",
                    "",
                    NO_UNIT,
                    95,
                    "0=standby|1=pre-purge|3=ignition|5=firing",
                    List.of("-t", "4"),
                    Kind.MULTI_STATE_INPUT),
            new Field(
                    "flame",
                    "discrete-input",
                    6,
                    "bit",
                    "",
                    "",
                    "",
                    NO_UNIT,
                    95,
                    "0=off|1=on",
                    List.of("-t", "1"),
                    Kind.BINARY_INPUT),
            new Field(
                    "main-valve",
                    "coil",
                    7,
                    "bit",
                    "",
                    "",
                    "",
                    NO_UNIT,
                    95,
                    "",
                    List.of("-t", "0"),
                    Kind.BINARY_INPUT));

    private FieldPoints() {}

    private static Field analog(
            String name,
            String table,
            int wire,
            String format,
            String order,
            String scale,
            String offset,
            String unit,
            int bacnetUnit,
            String... mbpollType) {
        return new Field(
                name,
                table,
                wire,
                format,
                order,
                scale,
                offset,
                unit,
                bacnetUnit,
                "",
                List.of(mbpollType),
                Kind.ANALOG_INPUT);
    }

    static String image() {
        // -100, 4567, 123.456 as 42F6 E979, then -0.75 as BF40 0000 with the low word first.
        return """
                {"input-register": {"0": 65436, "1": 4567, "2": 17142, "3": 59769},
                 "holding-register": {"10": 3, "11": 8, "12": 65535, "13": 345, "20": 0, "21": 48960},
                 "discrete-input": {"6": 1}, "coil": {"7": 0}}
                """;
    }

    static String pointList() {
        StringBuilder csv = new StringBuilder(
                "name,table,address,format,order,scale,offset,unit,role,every,stale-after,states,change\n");
        for (Field field : ALL) {
            csv.append(String.join(
                            ",",
                            field.name(),
                            field.table(),
                            Integer.toString(field.wire()),
                            field.format(),
                            field.order(),
                            field.scale(),
                            field.offset(),
                            field.unit(),
                            "measurement",
                            "500 ms",
                            "2 s",
                            field.states(),
                            ""))
                    .append('\n');
        }
        // Never bound, so never on BACnet; a refused register beside the others.
        return csv.append("nowhere,holding-register,500,uint16,,,,,status,500 ms,2 s,,\n")
                .toString();
    }

    static String bindings() {
        StringBuilder csv = new StringBuilder("type,point,object,offset,states\n");
        for (int i = 0; i < ALL.size(); i++) {
            csv.append("burner,").append(ALL.get(i).name()).append(',');
            csv.append(ALL.get(i).kind().word()).append(',').append(i + 1).append(',');
            // The numbers of "phase", in another order than that of its cell.
            csv.append(ALL.get(i).kind() == Kind.MULTI_STATE_INPUT ? "5=1|0=2|3=3|1=4" : "")
                    .append('\n');
        }
        return csv.toString();
    }

    static String siteYaml(Rig rig) {
        return String.format(Locale.ROOT, """
                site: quillmere
                description: a field device from an independent library
                time-zone: Europe/Lisbon
                lines:
                  annex: {tcp: {host: 127.0.0.1, port: %d}, reply-timeout: 1 s}
                types:
                  burner: {points: points/burner.csv, numbering: wire}
                controllers:
                  boiler-1: {line: annex, unit: 1, type: burner, instance-base: 1000}
                bacnet: {device-instance: 711001, bind: 127.0.0.1, port: %d}
                mqtt: {brokers: ['tcp://127.0.0.1:%d'], root: plant}
                """, rig.modbusPort, rig.bacnetPort, rig.brokerPort);
    }
}
