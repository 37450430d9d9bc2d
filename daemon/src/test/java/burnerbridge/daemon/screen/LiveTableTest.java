package burnerbridge.daemon.screen;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.model.HandClock;
import burnerbridge.model.Quality;
import burnerbridge.model.Reason;
import burnerbridge.values.Query;
import java.io.ByteArrayInputStream;
import java.time.Duration;
import java.util.List;
import java.util.Set;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class LiveTableTest {
    private static final Query ALL = new Query(List.of(), Set.of(), 0, Integer.MAX_VALUE);

    private final Rows rows = new Rows();
    private final LiveTable live = new LiveTable(
            rows,
            ALL,
            new RowTable(false),
            () -> "site quillmere, from here",
            List.of(),
            new HandClock(),
            Duration.ofSeconds(1));

    private void fill(int count) {
        for (int i = 0; i < count; i++) {
            rows.rows.add(Rows.good("p" + i, Integer.toString(i)));
        }
    }

    private List<String> texts(int width, int height) throws Exception {
        return live.lines(new Terminal.Size(width, height)).stream()
                .map(ScreenLine::text)
                .toList();
    }

    @ParameterizedTest
    @CsvSource({"80, 24, 100", "100, 40, 3", "20, 5, 50", "10, 3, 50", "1, 1, 1", "80, 24, 0"})
    void itFillsTheTerminalAndNoMore(int width, int height, int count) throws Exception {
        fill(count);
        rows.down.addAll(List.of("boiler-1: no-reply: silent", "boiler-2: line-down: x".repeat(20), "boiler-3: y"));
        assertThat(texts(width, height)).hasSize(height).allMatch(line -> TextWidth.of(line) <= width);
    }

    @Test
    void onlyTheRowsThatFitAreAskedFor() throws Exception {
        fill(100);
        assertThat(texts(80, 24).get(23)).startsWith("rows 1 to 20 of 100 | q ends, space");
        assertThat(rows.asked.get(0).most()).isEqualTo(20);
    }

    @Test
    void countsAndWhoDoesNotAnswerStandOnTop() throws Exception {
        fill(2);
        rows.rows.add(Rows.not(Reason.NO_REPLY, "old", Rows.number("7")));
        rows.down.add("boiler-1: no-reply: no reply to it");
        assertThat(texts(80, 24))
                .startsWith(
                        "site quillmere, from here",
                        "3 points: 2 good, 0 uncertain, 1 stale, 0 bad; not answering: 1",
                        "  boiler-1: no-reply: no reply to it")
                .endsWith("all 3 rows | q ends");
    }

    @Test
    void onlyWhatChangedIsSent() {
        Drawing drawing = new Drawing(false);
        ScreenLine title = ScreenLine.plain("a title that stands still");
        assertThat(drawing.to(List.of(title, ScreenLine.plain("value 41 °C  good  1 s"))))
                .isEqualTo("\u001b[2J\u001b[1;1Ha title that stands still\u001b[2;1Hvalue 41 °C  good  1 s");
        assertThat(drawing.to(List.of(title, ScreenLine.plain("value 42 °C  good  2 s"))))
                .isEqualTo("\u001b[2;8H2\u001b[2;20H2");
        assertThat(drawing.to(List.of(title, ScreenLine.plain("value")))).isEqualTo("\u001b[2;6H\u001b[K");
        assertThat(drawing.to(List.of(title, ScreenLine.plain("value")))).isEmpty();
        assertThat(drawing.to(List.of(title))).isEqualTo("\u001b[2;1H\u001b[K");
    }

    @Test
    void wideTextIsSentAsAWholeLineSinceItsCellsAreNotCounted() {
        Drawing drawing = new Drawing(false);
        drawing.to(List.of(ScreenLine.plain("予備 1")));
        assertThat(drawing.to(List.of(ScreenLine.plain("予備 2")))).isEqualTo("\u001b[1;1H予備 2\u001b[K");
    }

    @Test
    void aColourEndsWithItsWord() {
        ScreenLine line = new ScreenLine("x bad y", 2, 5, Quality.BAD);
        assertThat(new Drawing(true).to(List.of(line))).endsWith("x \u001b[31mbad\u001b[0m y");
        assertThat(new Drawing(false).to(List.of(line))).endsWith("x bad y");
    }

    @Test
    void keysAreUnderstoodAndTheEndOfTheInputQuits() throws Exception {
        Keys keys = new Keys(new ByteArrayInputStream(
                " bjk\u001b[A\u001b[B\u001b[5~\u001b[6~xq".getBytes(java.nio.charset.StandardCharsets.US_ASCII)));
        keys.start();
        for (Key expected : List.of(
                Key.NEXT_PAGE,
                Key.PAGE_BEFORE,
                Key.NEXT_LINE,
                Key.LINE_BEFORE,
                Key.LINE_BEFORE,
                Key.NEXT_LINE,
                Key.PAGE_BEFORE,
                Key.NEXT_PAGE,
                Key.QUIT,
                Key.QUIT)) {
            assertThat(keys.await(TimeUnit.SECONDS.toNanos(10))).isEqualTo(expected);
        }
    }
}
