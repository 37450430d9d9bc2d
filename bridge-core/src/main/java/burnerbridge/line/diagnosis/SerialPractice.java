package burnerbridge.line.diagnosis;

import burnerbridge.line.diagnosis.Finding.Kind;
import burnerbridge.site.LineDefinition.Serial;
import java.time.Duration;
import java.util.Locale;
import java.util.Optional;

/** RS-485 on an adapter of this machine. */
record SerialPractice(Serial serial, Duration replyTimeout) implements Practice {

    @Override
    public Optional<String> lookAt(Kind kind, boolean ofOneUnit) {
        return Optional.of(
                switch (kind) {
                    case NOTHING_HEARD ->
                        "the power of the units, A and B swapped, the unit ids, baud rate and parity (" + settings()
                                + "), and whether the adapter switches to sending (" + direction() + ")";
                    case UNIT_SILENT -> "its power, its unit id, its own baud rate and parity, and its plug";
                    case ECHO -> echo();
                    case FRAMING ->
                        "baud rate, parity and stop bits (" + settings() + ")"
                                + (ofOneUnit ? " as set at this unit" : ", and A and B swapped");
                    case STRAY_BYTES ->
                        "the bias of the line, which holds its level while nobody sends, and how the adapter switches"
                                + " direction (" + direction() + ")";
                    case BEGINNING_LOST ->
                        "the turnaround: the adapter still sends when the reply begins (" + direction()
                                + "); a longer reply delay at the controller, where it has one";
                    case CHECKSUM ->
                        ofOneUnit
                                ? "this unit's terminals, branch and shield, and a second unit with the same id"
                                : "the shield and its earth, loose terminals, the cable beside motors and ignition,"
                                        + " and who else sends at the same time";
                    case CHECKSUM_RISES_WITH_LENGTH ->
                        "the termination: a resistor at both ends of the cable and nowhere between, and no long"
                                + " branches; then at noise, and at a lower baud rate";
                    case LENGTH ->
                        "`reply-timeout` (here " + Practice.words(replyTimeout)
                                + "), pauses of the unit within replies, and the adapter's buffer";
                    case DOUBLED_UNIT -> "a second unit with the same id on this line";
                    case OTHERS_REPLY ->
                        "a second master, whose replies these are, the units' ids, and `reply-timeout`, where they are late";
                    case SECOND_MASTER ->
                        "what else asks on this line, such as a panel or a laptop: only one master may";
                    case LATE_REPLY ->
                        "`reply-timeout`, which is too short for it (here " + Practice.words(replyTimeout) + ")";
                    case ENDED -> "the adapter's plug and power: the port vanished";
                });
    }

    @Override
    public String seen(Symptom symptom) {
        return switch (symptom) {
            case ECHO -> serial.echo() ? "our own bytes did not come back as they were sent" : symptom.words();
            case ENDED -> "the port ended instead of a reply";
            default -> symptom.words();
        };
    }

    private String echo() {
        return serial.echo()
                ? "the setting `echo: true`, which is wrong where requests do not come back, and at who else sends at"
                        + " the same time"
                : "the adapter's echo: set `echo: true` on this line, or switch it off at the adapter";
    }

    private String settings() {
        return "here " + serial.baud() + " baud, parity "
                + serial.parity().name().toLowerCase(Locale.ROOT) + ", stop bits " + serial.stopBits();
    }

    private String direction() {
        return "here rs485: " + serial.rs485().name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
}
