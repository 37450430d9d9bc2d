package burnerbridge.daemon;

import burnerbridge.bacnet.edge.ForeignDevice;
import burnerbridge.control.Reply;
import burnerbridge.control.Request;
import burnerbridge.control.RequestHandler;
import burnerbridge.model.Stamp;
import burnerbridge.site.Site;
import burnerbridge.values.RowJson;
import java.io.IOException;
import java.util.Optional;
import java.util.function.Supplier;

/** Answers {@code {"ask":"about"}} with one line: what runs, since when, for which site. */
final class AboutHandler implements RequestHandler {
    static final String NAME = "about";
    /** The member that tells of the registration; missing where there is none. */
    static final String FOREIGN_DEVICE = "foreignDevice";

    private final Site site;
    private final Stamp startedAt;
    private final Supplier<Optional<ForeignDevice.State>> registration;

    /** @param registration how it stands with the registration as a foreign device, where there is one */
    AboutHandler(Site site, Stamp startedAt, Supplier<Optional<ForeignDevice.State>> registration) {
        this.site = site;
        this.startedAt = startedAt;
        this.registration = registration;
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
            registration.get().ifPresent(state -> json.writeStringProperty(FOREIGN_DEVICE, state.word()));
        });
    }
}
