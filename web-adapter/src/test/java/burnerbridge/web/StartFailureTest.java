package burnerbridge.web;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.site.WebSettings;
import java.io.IOException;
import java.net.BindException;
import java.net.SocketException;
import org.junit.jupiter.api.Test;

/** With the words of Linux, as Java passes them on. */
class StartFailureTest {

    private static String sentence(int port, IOException e) {
        return StartFailure.sentence(WebSettings.onLoopback(port), e);
    }

    @Test
    void aPortThatIsNotAllowedIsTold() {
        assertThat(sentence(80, new SocketException("Permission denied")))
                .isEqualTo("web: 127.0.0.1 port 80 cannot be opened: this user may not open ports below 1024;"
                        + " choose a higher one");
        assertThat(sentence(9311, new BindException("Permission denied")))
                .isEqualTo("web: 127.0.0.1 port 9311 cannot be opened: this user may not open it");
    }

    @Test
    void whatIsNotKnownIsToldAsItWasSaid() {
        assertThat(sentence(9311, new IOException("Too many open files")))
                .isEqualTo("web: 127.0.0.1 port 9311 cannot be opened: IOException (Too many open files)");
    }
}
