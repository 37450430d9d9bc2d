package burnerbridge.web.access;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class HostNamesTest {

    @ParameterizedTest
    @CsvSource({
        "localhost,true",
        "LocalHost:9311,true",
        "localhost:,true",
        "127.0.0.1,true",
        "127.0.0.1:9311,true",
        "127.9.8.7,true",
        "[::1],true",
        "[::1]:9311,true",
        "127.0.0.1.example,false",
        "example,false",
        "localhost.example,false",
        "notlocalhost,false",
        "localhost:port,false",
        "localhost:1:2,false",
        "::1,false",
        "128.0.0.1,false",
        "192.0.2.7,false",
        "'',false",
        "user@localhost,false"
    })
    void onLoopbackOnlyThisMachinesOwnNamesCount(String host, boolean ours) {
        assertThat(new HostNames("127.0.0.1").areOurs(host)).isEqualTo(ours);
    }

    @ParameterizedTest
    @CsvSource({"::1,[::1]:9311,true", "0:0:0:0:0:0:0:1,[0:0:0:0:0:0:0:1],true", "127.0.0.5,127.0.0.5:1,true"})
    void theAddressOfThePortCounts(String bind, String host, boolean ours) {
        assertThat(new HostNames(bind).areOurs(host)).isEqualTo(ours);
    }
}
