package burnerbridge.values;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import burnerbridge.site.Points;
import burnerbridge.site.SitePoint;
import java.time.Duration;
import java.util.List;
import org.junit.jupiter.api.Assertions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class PointFilterTest {
    private static final List<SitePoint> POINTS = Points.of(
            Points.controller(0, "boiler-1", 1, Points.uint16("flue-temperature", 0), Points.uint16("phase", 1)),
            Points.controller(1, "boiler-12", 2, Points.uint16("phase", 0)));

    private static List<String> chosen(String... written) {
        PointFilter filter = new PointFilter(List.of(written));
        return POINTS.stream()
                .filter(filter::chooses)
                .map(point -> point.id().toString())
                .toList();
    }

    @Test
    void withoutAnyAllAreChosen() {
        assertThat(chosen()).hasSize(3);
    }

    @Test
    void aControllerStandsForAllItsPoints() {
        assertThat(chosen("boiler-1")).containsExactly("boiler-1.flue-temperature", "boiler-1.phase");
        assertThat(chosen("boiler-?2")).containsExactly("boiler-12.phase");
        assertThat(chosen("*.flue-*", "BOILER-12")).containsExactly("boiler-1.flue-temperature", "boiler-12.phase");
    }

    @ParameterizedTest
    @CsvSource({
        "a*b, ab, true",
        "a*b, axxb, true",
        "a*b, axxbc, false",
        "'', '', true",
        "*, anything, true",
        "?, '', false",
        "*a*a*, banana, true",
        "*a*a*a*a*, banana, false",
        "boiler-??, boiler-1, false"
    })
    void globsMatchAsInAShell(String pattern, String text, boolean matches) {
        assertThat(new Glob(pattern).matches(text)).isEqualTo(matches);
    }

    @Test
    void manyStarsTakeNoAges() {
        Glob stars = new Glob("*a".repeat(40) + "b");
        Assertions.assertTimeoutPreemptively(
                Duration.ofSeconds(5),
                () -> assertThat(stars.matches("a".repeat(80))).isFalse());
    }

    @ParameterizedTest
    @ValueSource(strings = {"", ".", "a.b.c", "boiler 1", "boiler-1.", "[a-z]", "'"})
    void anotherFormIsToldInWords(String written) {
        assertThatThrownBy(() -> new PointFilter(List.of(written)))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("CONTROLLER.POINT")
                .hasMessageContaining("'" + written + "'");
    }
}
