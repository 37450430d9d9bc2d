package burnerbridge.benchmark.all;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.benchmark.Main;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

class PlanTest {

    @Test
    void everyRunHasANameOfItsOwn() {
        assertThat(Plan.ALL.stream().map(Measurement::name)).doesNotHaveDuplicates();
    }

    @Test
    void everyCommandIsRun() {
        assertThat(Plan.ALL.stream().map(Measurement::command))
                .containsAll(Main.commands().getSubcommands().keySet().stream()
                        .filter(name -> !name.equals("all"))
                        .toList());
    }

    @ParameterizedTest
    @MethodSource("calls")
    void everyCommandTakesItsArguments(List<String> call) {
        assertThat(Main.commands()
                        .parseArgs(call.toArray(new String[0]))
                        .subcommand()
                        .commandSpec()
                        .name())
                .isEqualTo(call.get(0));
    }

    private static Stream<List<String>> calls() {
        return Plan.ALL.stream().flatMap(each -> Stream.of(Length.values()).map(length -> call(each, length)));
    }

    private static List<String> call(Measurement measurement, Length length) {
        List<String> call = new ArrayList<>(List.of(measurement.command()));
        call.addAll(measurement.arguments(length, List.of("a/bin/java", "b/bin/java")));
        call.addAll(List.of("--figures", "figures.csv"));
        return call;
    }

    @Test
    void theDaemonsJavaIsToldToThoseThatRunIt() {
        List<String> javas = List.of("a/bin/java", "b/bin/java");

        assertThat(Plan.ALL.stream()
                        .filter(each -> each.arguments(Length.LONG, javas).contains("--java"))
                        .map(Measurement::name))
                .containsExactly("lines", "lines-100", "start", "memory");
    }
}
