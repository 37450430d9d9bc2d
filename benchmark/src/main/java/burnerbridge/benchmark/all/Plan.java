package burnerbridge.benchmark.all;

import java.util.List;

/** What is measured, in this order. */
final class Plan {
    private static final Measurement LINES = Measurement.of(
            "lines",
            true,
            "",
            "--rounds 1 --warm 5 --seconds 10",
            "--lines 3 --points 2 --reads 1,2 --rounds 1 --warm 0 --seconds 1");

    static final List<Measurement> ALL = List.of(
            Measurement.of(
                    "transactions",
                    false,
                    "",
                    "--rounds 7 --warm-rounds 5 --reads 1000 --slow-reads 150",
                    "--rounds 2 --warm-rounds 1 --reads 20 --slow-reads 5"),
            LINES,
            LINES.named(
                    "lines-100",
                    "--points 100 --reads 1 --heap 384m",
                    "--points 100 --reads 1 --heap 384m --rounds 1 --warm 15 --seconds 15",
                    "--lines 3 --points 100 --reads 1 --rounds 1 --warm 0 --seconds 1"),
            Measurement.of(
                    "pace",
                    false,
                    "",
                    "--turnaround 5 --scans 8 --reads 8",
                    "--baud 115200 --turnaround 5 --scans 2 --reads 3"),
            Measurement.of("loss", false, "", "--seconds 15", "--controllers 3 --dead 0,1 --seconds 4 --baud 115200"),
            Measurement.of(
                    "mqtt",
                    false,
                    "",
                    "--rounds 7 --warm 5 --single 1000",
                    "--points 50 --rounds 2 --warm 1 --single 20"),
            Measurement.of(
                    "bacnet",
                    false,
                    "",
                    "--rounds 5 --warm 3 --millis 300 --single 200 --starts 2",
                    "--objects 30 --at-once 1 --rounds 1 --warm 0 --millis 20 --single 5 --starts 1 --heap 64m"),
            Measurement.of(
                    "hostile",
                    false,
                    "",
                    "--seconds 40 --quiet 15 --warm 10",
                    "--objects 50 --seconds 2 --quiet 1 --warm 0 --asks 50 --flood 1000 --mutations 200 --heap 64m"),
            Measurement.of("start", true, "", "--starts 3 --settle 10", "--starts 1 --settle 0 --flags none"),
            Measurement.of(
                    "memory",
                    true,
                    "",
                    "--rounds 1 --seconds 30",
                    "--controllers 3 --points 5 --every 1 --rounds 1 --seconds 1"),
            Measurement.of(
                    "jmh",
                    false,
                    "-prof gc -f 2 -wi 5 -i 5",
                    "-prof gc -f 1 -wi 3 -i 3 -p points=1000",
                    "-prof gc -f 1 -wi 0 -i 1 -r 20ms -p points=100 -p registers=10"));

    private Plan() {}
}
