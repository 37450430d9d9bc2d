package burnerbridge.web;

import burnerbridge.site.WebSettings;
import java.io.IOException;
import java.net.BindException;
import java.util.Locale;

/** Why a port could not be opened, for people. */
final class StartFailure {
    private static final int FIRST_FOR_ALL = 1024;

    private StartFailure() {}

    static String sentence(WebSettings settings, IOException e) {
        return "web: " + settings.bind() + " port " + settings.port() + " cannot be opened: " + why(settings, e);
    }

    /** The system's own words are all that Java passes on. */
    private static String why(WebSettings settings, IOException e) {
        String said = String.valueOf(e.getMessage()).toLowerCase(Locale.ROOT);
        if (said.contains("permission denied") && settings.port() < FIRST_FOR_ALL) {
            return "this user may not open ports below " + FIRST_FOR_ALL + "; choose a higher one";
        }
        if (said.contains("permission denied")) {
            return "this user may not open it";
        }
        if (e instanceof BindException && said.contains("in use")) {
            return "another program has it; ss -ltnp shows which, or choose another port";
        }
        if (said.contains("cannot assign") || said.contains("unsupported address")) {
            return "no interface of this machine has this address";
        }
        return e.getClass().getSimpleName() + " (" + e.getMessage() + ")";
    }
}
