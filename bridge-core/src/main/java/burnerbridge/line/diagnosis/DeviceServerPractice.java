package burnerbridge.line.diagnosis;

import burnerbridge.line.diagnosis.Finding.Kind;
import burnerbridge.site.LineDefinition.RtuOverTcp;
import java.time.Duration;
import java.util.Optional;

/** A device server between us and an RS-485 line. */
record DeviceServerPractice(RtuOverTcp server, Duration replyTimeout) implements Practice {

    @Override
    public Optional<String> lookAt(Kind kind, boolean ofOneUnit) {
        return Optional.of(
                switch (kind) {
                    case NOTHING_HEARD ->
                        "the power of the units, A and B swapped behind the device server, the unit ids, and the device"
                                + " server's baud rate (here " + server.baud()
                                + ") and parity; at `reply-timeout` (here "
                                + Practice.words(replyTimeout) + ")";
                    case UNIT_SILENT -> "its power, its unit id, its own baud rate and parity, and its plug";
                    case ECHO -> "the device server's echo on its serial side, and switch it off there";
                    case FRAMING ->
                        ofOneUnit
                                ? "baud rate, parity and stop bits as set at this unit and at the device server"
                                : "the device server's baud rate (here " + server.baud()
                                        + "), parity and stop bits, A and B swapped behind it, and whether it passes"
                                        + " RTU frames on as they are: where it speaks Modbus TCP the line is `tcp`";
                    case STRAY_BYTES ->
                        "the bias of the line behind the device server, which holds its level while nobody sends, and"
                                + " how the device server switches direction";
                    case BEGINNING_LOST ->
                        "the turnaround: the device server still sends when the reply begins; a longer reply delay at"
                                + " the controller, where it has one";
                    case CHECKSUM ->
                        ofOneUnit
                                ? "this unit's terminals, branch and shield, and a second unit with the same id"
                                : "the shield and its earth, loose terminals, the cable beside motors and ignition,"
                                        + " and other clients of the device server, who send at the same time";
                    case CHECKSUM_RISES_WITH_LENGTH ->
                        "the termination: a resistor at both ends of the cable and nowhere between, and no long"
                                + " branches; then at noise, and at a lower baud rate";
                    case LENGTH ->
                        "the device server's frame gap or packing length, and `reply-timeout` (here "
                                + Practice.words(replyTimeout) + ")";
                    case DOUBLED_UNIT -> "a second unit with the same id behind the device server";
                    case OTHERS_REPLY ->
                        "other clients of the device server, whose replies these are, and the units' ids";
                    case SECOND_MASTER ->
                        "what else asks on this line, such as a panel or another client of the device server: only one"
                                + " master may";
                    case LATE_REPLY ->
                        "`reply-timeout`, which is too short for it (here " + Practice.words(replyTimeout) + ")";
                    case ENDED ->
                        "how many connections the device server takes, other clients that hold them, and its idle"
                                + " time-out";
                });
    }
}
