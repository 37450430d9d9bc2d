package burnerbridge.daemon;

import burnerbridge.control.Reply;
import burnerbridge.control.Request;
import burnerbridge.control.RequestHandler;
import burnerbridge.model.Stamp;
import burnerbridge.site.Site;
import burnerbridge.values.RowJson;
import java.io.IOException;

/** Answers {@code {"ask":"about"}} with one line: what runs, since when, for which site. */
final class AboutHandler implements RequestHandler {
    static final String NAME = "about";

    private final Site site;
    private final Stamp startedAt;

    AboutHandler(Site site, Stamp startedAt) {
        this.site = site;
        this.startedAt = startedAt;
    }

    @Override
    public void answer(Request request, Reply reply) throws IOException {
        reply.line(json -> {
            json.writeStringProperty("version", Main.VERSION);
            json.writeStringProperty("java", Runtime.version().toString());
            json.writeNumberProperty("pid", ProcessHandle.current().pid());
            json.writeStringProperty("startedAt", RowJson.time(startedAt.wall()));
            json.writeStringProperty("site", site.name().text());
            json.writeStringProperty("description", site.description());
            json.writeNumberProperty("lines", site.lines().size());
            json.writeNumberProperty("controllers", site.controllers().size());
            json.writeNumberProperty("points", site.points().size());
        });
    }
}
