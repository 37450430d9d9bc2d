package burnerbridge.write;

import burnerbridge.site.PointId;
import burnerbridge.write.ask.Ask;
import burnerbridge.write.ask.Source;
import burnerbridge.write.ask.Wanted;
import burnerbridge.write.encode.Encoded;
import burnerbridge.write.encode.Encoder;
import burnerbridge.write.slot.Slot;
import java.math.BigDecimal;
import java.util.Optional;
import java.util.OptionalLong;

/**
 * What the questions are about.
 *
 * @param wanted for messages
 * @param asked the number that is asked for; empty where it is none
 * @param value what it comes to in the registers; empty where it comes to nothing
 */
record Subject(
        PointId point,
        String wanted,
        Optional<BigDecimal> asked,
        Optional<Encoded> value,
        int slot,
        Source source,
        OptionalLong notAfter) {

    static Subject of(Ask ask, PermitBook book) {
        Optional<BigDecimal> asked =
                ask.wanted() instanceof Wanted.Number number ? Optional.of(number.value()) : Optional.empty();
        Optional<Encoded> value = book.of(ask.point())
                .flatMap(permitted ->
                        asked.flatMap(number -> Encoder.encode(permitted.point().definition(), number)));
        return new Subject(ask.point(), ask.wanted().text(), asked, value, ask.slot(), ask.source(), ask.notAfter());
    }

    static Subject of(Permitted permitted, Slot slot) {
        return of(permitted, slot.value(), slot.number(), slot.source(), slot.notAfter());
    }

    static Subject of(Ticket ticket) {
        return of(ticket.permitted(), ticket.value(), ticket.slot(), ticket.source(), ticket.notAfter());
    }

    private static Subject of(Permitted permitted, Encoded value, int slot, Source source, OptionalLong notAfter) {
        return new Subject(
                permitted.id(),
                value.value().toPlainString(),
                Optional.of(value.value()),
                Optional.of(value),
                slot,
                source,
                notAfter);
    }
}
