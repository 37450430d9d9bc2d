package burnerbridge.scan;

import burnerbridge.health.HealthSource;
import burnerbridge.health.Place;
import burnerbridge.health.Trouble;
import burnerbridge.health.Trouble.Weight;
import burnerbridge.line.diagnosis.Finding;
import burnerbridge.model.Stamp;
import burnerbridge.poll.LineLink;
import burnerbridge.poll.LinePoller;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.LineDefinition;
import burnerbridge.site.LineDefinition.Serial;
import burnerbridge.site.LineDefinition.Tcp;
import burnerbridge.table.ControllerLink;
import burnerbridge.table.ControllerLink.Cause;
import burnerbridge.table.ControllerLink.State;
import burnerbridge.table.ValueTable;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;

/**
 * What is wrong on the lines right now. Where a cause is most likely to be found is common practice, not a proof: what
 * all controllers of a wire share is looked for in the wire, and what one of them alone shows in that one.
 */
public final class LineTroubles implements HealthSource {
    private final List<LinePoller> pollers;
    private final ValueTable table;

    public LineTroubles(List<LinePoller> pollers, ValueTable table) {
        this.pollers = List.copyOf(pollers);
        this.table = table;
    }

    @Override
    public void tell(Consumer<Trouble> troubles) {
        pollers.forEach(poller -> new OfLine(poller, troubles).tell());
    }

    private final class OfLine {
        private final LinePoller poller;
        private final LineDefinition line;
        private final List<ControllerDefinition> controllers;
        private final List<Finding> findings;
        private final Consumer<Trouble> troubles;

        OfLine(LinePoller poller, Consumer<Trouble> troubles) {
            this.poller = poller;
            this.line = poller.plan().line();
            this.controllers = table.controllers().stream()
                    .filter(controller -> controller.isOn(line.name()))
                    .toList();
            this.findings = poller.findings();
            this.troubles = troubles;
        }

        void tell() {
            LineLink link = poller.link();
            if (link.state() == LineLink.State.DOWN) {
                troubles.accept(notConnected(link));
                return;
            }
            silent();
            findings.stream().filter(finding -> !isSilence(finding)).forEach(finding -> troubles.accept(of(finding)));
            if (poller.isOverloaded()) {
                troubles.accept(degraded(
                        Place.SITE,
                        about(),
                        "more is wanted of it than it can do in the time",
                        "the intervals of its rows and what 'check' foretells of its load",
                        null));
            }
        }

        private String about() {
            return "line " + line.name();
        }

        private Trouble notConnected(LineLink link) {
            boolean serial = line.endpoint() instanceof Serial;
            return degraded(
                    serial ? Place.CABLE : Place.NETWORK,
                    about(),
                    "is not connected: " + link.why(),
                    serial
                            ? "the adapter, its plug, and the name of the device in site.yaml"
                            : "the address in site.yaml, the power of the device there, and the network between",
                    link.since());
        }

        private void silent() {
            List<ControllerDefinition> down = controllers.stream()
                    .filter(controller -> link(controller).state() == State.DOWN
                            && link(controller).cause() == Cause.NO_REPLY)
                    .toList();
            boolean alone = controllers.size() == 1 && line.endpoint() instanceof Tcp;
            if (!down.isEmpty() && down.size() == controllers.size() && !alone) {
                troubles.accept(nobody(down));
            } else {
                down.forEach(controller -> troubles.accept(silent(controller)));
            }
        }

        private Trouble nobody(List<ControllerDefinition> down) {
            Optional<Finding> nothing =
                    findings.stream().filter(LineTroubles::isSilence).findFirst();
            return degraded(
                    Place.CABLE,
                    about(),
                    down.size() == 1
                            ? "its one controller, " + down.get(0).name() + ", does not answer"
                            : "none of its " + down.size() + " controllers answers",
                    nothing.map(Finding::lookAt).orElse("the wire, its plugs, and the power of what hangs on it"),
                    down.stream().map(controller -> link(controller).since()).reduce(null, LineTroubles::later));
        }

        private Trouble silent(ControllerDefinition controller) {
            ControllerLink link = link(controller);
            Optional<Finding> finding = findings.stream()
                    .filter(found -> isSilence(found) && controller.unit().equals(found.unit()))
                    .findFirst();
            return degraded(
                    Place.BURNER,
                    "controller " + controller.name(),
                    "does not answer" + (link.detail().isEmpty() ? "" : ": " + link.detail()),
                    finding.map(Finding::lookAt).orElse("its power, its unit id, and its plug"),
                    link.since());
        }

        private Trouble of(Finding finding) {
            return degraded(
                    placeOf(finding.kind()),
                    about() + (finding.unit() == null ? "" : ", unit " + finding.unit()),
                    finding.seen(),
                    finding.lookAt(),
                    null);
        }

        private Place placeOf(Finding.Kind kind) {
            return switch (kind) {
                case UNIT_SILENT, LATE_REPLY -> Place.BURNER;
                case ENDED -> line.endpoint() instanceof Serial ? Place.CABLE : Place.NETWORK;
                case NOTHING_HEARD,
                        ECHO,
                        FRAMING,
                        STRAY_BYTES,
                        BEGINNING_LOST,
                        CHECKSUM,
                        CHECKSUM_RISES_WITH_LENGTH,
                        LENGTH,
                        DOUBLED_UNIT,
                        OTHERS_REPLY,
                        SECOND_MASTER -> Place.CABLE;
            };
        }

        private ControllerLink link(ControllerDefinition controller) {
            return table.link(controller);
        }
    }

    private static boolean isSilence(Finding finding) {
        return finding.kind() == Finding.Kind.NOTHING_HEARD || finding.kind() == Finding.Kind.UNIT_SILENT;
    }

    private static @Nullable Stamp later(@Nullable Stamp one, @Nullable Stamp other) {
        if (one == null || other == null) {
            return one == null ? other : one;
        }
        return one.ticks() - other.ticks() > 0 ? one : other;
    }

    private static Trouble degraded(Place place, String about, String seen, String lookAt, @Nullable Stamp since) {
        return new Trouble(place, about, seen, lookAt, since, Weight.DEGRADED);
    }
}
