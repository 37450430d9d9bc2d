package burnerbridge.daemon.explain;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.health.Place;
import burnerbridge.health.Trouble;
import burnerbridge.health.Trouble.Weight;
import burnerbridge.model.Stamp;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.time.Instant;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

class ExplanationTextTest {
    private static final Stamp SINCE = new Stamp(0, Instant.parse("2026-11-25T08:00:00.250Z"), true);

    private static Trouble trouble(Place place, String about, Weight weight) {
        return new Trouble(place, about, "is away", "its plug", SINCE, weight);
    }

    private static String text(boolean all, Trouble... troubles) {
        StringWriter text = new StringWriter();
        new ExplanationText(
                        new Explanation("quillmere", "from the running bridge, process 7", true, List.of(troubles)),
                        all)
                .print(new PrintWriter(text, true));
        return text.toString();
    }

    @Test
    void whereNothingIsWrongEachPlaceSaysSo() {
        assertThat(text(false))
                .startsWith("site quillmere, from the running bridge, process 7\n"
                        + "Nothing is wrong, as far as can be seen.\n")
                .contains("burner    the controllers and what hangs on them: nothing is wrong")
                .contains("site      what a person wrote or has to do: nothing is wrong");
    }

    @Test
    void whatIsWrongStandsAtItsPlaceWithWhatToLookAt() {
        assertThat(text(false, trouble(Place.CABLE, "line annex", Weight.DEGRADED)))
                .contains("Degraded: 1 thing is wrong.\n")
                .contains("""
                        cable     wires, plugs, adapters
                                  ! line annex: is away (since 2026-11-25 08:00:00 UTC)
                                    Look at its plug.
                        """);
    }

    @Test
    void whatIsWorthKnowingIsCountedApart() {
        assertThat(text(
                        false,
                        trouble(Place.BURNER, "controller boiler-1", Weight.NOTICE),
                        trouble(Place.BROKER, "mqtt", Weight.NOT_READY)))
                .contains("Not-ready: 1 thing is wrong, 1 is worth knowing.\n")
                .contains("- controller boiler-1: is away")
                .contains("! mqtt: is away");
        assertThat(new Explanation("x", "y", true, List.of(trouble(Place.BURNER, "a", Weight.NOTICE))).state())
                .isEqualTo("ready");
    }

    @Test
    void aThousandTroublesFitOneScreenTheHeaviestFirst() {
        Trouble[] many = IntStream.range(0, 1_000)
                .mapToObj(i ->
                        trouble(Place.BURNER, "controller boiler-" + i, i == 999 ? Weight.NOT_READY : Weight.DEGRADED))
                .toArray(Trouble[]::new);

        assertThat(text(false, many))
                .contains("! controller boiler-999")
                .contains("and 997 more, with --all")
                .doesNotContain("boiler-500:");
        assertThat(text(false, many).lines()).hasSizeLessThan(24).allMatch(line -> line.length() <= 79);
        assertThat(text(true, many)).contains("boiler-500:");
    }
}
