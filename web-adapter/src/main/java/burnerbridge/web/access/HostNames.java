package burnerbridge.web.access;

import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * By which names this machine may be asked on loopback. A page of some other place that a browser here shows can have a
 * name of its own point to this machine, and would read what is answered; but it cannot choose another Host header.
 */
final class HostNames {
    private static final Pattern HOST = Pattern.compile("(\\[[0-9a-f:.]+]|[^:\\[\\]]*)(:[0-9]{0,5})?");

    private final String bind;

    HostNames(String bind) {
        this.bind = bind.toLowerCase(Locale.ROOT);
    }

    boolean areOurs(String host) {
        Matcher parts = HOST.matcher(host.toLowerCase(Locale.ROOT));
        if (!parts.matches()) {
            return false;
        }
        String name = parts.group(1);
        return name.equals("localhost")
                || name.equals("[::1]")
                || name.equals(bind)
                || name.equals("[" + bind + "]")
                || name.matches("127([.][0-9]{1,3}){3}");
    }
}
