package burnerbridge.daemon.outside;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ShapeTest {
    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "boiler-1    oxygen  0143  3.23  %  good  0 s | boiler-1    oxygen  082A  20.90  %  good  12 s",
                "boiler-1  starts  0001 21E8  74216  good  5 s | boiler-1  starts  0001 21E9  74217  good  11 s",
                "boiler-1 a 0001 (-3.2) Pa stale no-reply 42 s | boiler-1 a 0002 (4) Pa stale no-reply 7 s",
                "steam-1 1 s 1.00 s 2 10.0 4.8 (5.0) 0 133 | steam-1 1 s 1.01 s 2 10.0 14.8 (5.0) 3 14",
                "boiler-1  fan  0B23  2851  rpm  good | boiler-1  fan  03E8   999  rpm  good",
                "line a: 34 reads; scan 1209.8 ms | line a: 9 reads; scan 60 ms",
                "t {\"value\":3.23,\"sequence\":4} | t {\"value\":-12,\"sequence\":5}",
                "{\"0:1005:85\":[100]} | {\"0:1005:85\":[72.0999984741211]}",
                "2026-11-28T21:29:15.024Z WARN lost | 2027-01-02T01:02:03.004Z WARN lost"
            })
    void whatMovesMakesNoDifference(String one, String other) {
        assertThat(Shape.of(one)).isEqualTo(Shape.of(other));
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "boiler-1    oxygen  0143  3.23  %  good  0 s | boiler-1    oxygen  0143  3.23  %  stale  0 s",
                "boiler-1    oxygen  0143  3.23  %  good  0 s | boiler-1    flame  0143  3.23  %  good  0 s",
                "boiler-1    oxygen  0143  3.23  %  good  0 s | boiler-1    oxygen  0143  (3.23)  %  good  0 s",
                "boiler-1    oxygen  0143  3.23  %  good  0 s | boiler-2    oxygen  0143  3.23  %  good  0 s",
                "2 points: 2 good, 0 uncertain | 2 points: 1 good, 1 uncertain",
                "{\"0:1007:103\":[12]} | {\"0:1007:103\":[0]}",
                "{\"0:1007:111\":[[0,1,0,0]]} | {\"0:1007:111\":[[0,0,0,0]]}",
                "{\"0:1007:85\":[1]} | {\"0:1008:85\":[1]}",
                "{\"13:1001:85\":[7]} | {\"13:1001:85\":[1]}",
                "t {\"value\":{\"number\":31,\"text\":\"a\"}} | t {\"value\":{\"number\":12,\"text\":\"b\"}}",
                "t {\"value\":null} | t {\"value\":3}",
                "0 errors, 0 warnings. | 1 error, 0 warnings."
            })
    void whatIsSaidDoes(String one, String other) {
        assertThat(Shape.of(one)).isNotEqualTo(Shape.of(other));
    }
}
