package burnerbridge.web.access;

import burnerbridge.model.Stamp;
import burnerbridge.site.WebSettings;
import burnerbridge.web.http.Answer;
import burnerbridge.web.http.Request;
import java.net.InetAddress;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Says who may not ask. The web thread uses it. */
public final class Doorkeeper {
    private static final Pattern BEARER = Pattern.compile("(?i:bearer) +([!-~]+)");

    private final boolean onLoopback;
    private final HostNames names;
    private final Token token;
    private final Guesses guesses = new Guesses();
    private final StrangerLog log = new StrangerLog();

    public Doorkeeper(WebSettings settings, Token token) {
        this.onLoopback = settings.isLoopback();
        this.names = new HostNames(settings.bind());
        this.token = token;
    }

    /** What is answered instead of what was asked for; empty where the peer may ask. */
    public Optional<Answer> refusal(Request request, InetAddress peer, Stamp now) {
        Optional<String> host = request.single("host");
        if (onLoopback && host.isPresent() && !names.areOurs(host.get())) {
            return Optional.of(Answer.refusal(421, "this machine is localhost"));
        }
        token.refresh(now);
        return token.isAsked() ? withoutToken(request, peer, now) : Optional.empty();
    }

    private Optional<Answer> withoutToken(Request request, InetAddress peer, Stamp now) {
        if (!guesses.hasAny(peer, now.ticks())) {
            log.refused(peer, "too many wrong tokens", now.ticks());
            return Optional.of(Answer.refusal(429, "too many wrong tokens").with("Retry-After", "6"));
        }
        Matcher shown = BEARER.matcher(request.single("authorization").orElse(""));
        boolean showsOne = shown.matches();
        if (showsOne && token.is(shown.group(1))) {
            return Optional.empty();
        }
        if (showsOne) {
            guesses.wrong(peer, now.ticks());
        }
        log.refused(peer, showsOne ? "a wrong token" : "no token", now.ticks());
        return Optional.of(Answer.refusal(401, "a token is needed").with("WWW-Authenticate", "Bearer"));
    }
}
