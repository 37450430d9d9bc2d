package burnerbridge.permits;

import burnerbridge.control.ControlClient;
import burnerbridge.control.ControlException;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;
import tools.jackson.core.JsonGenerator;

/** The permits of a running bridge. */
public final class RemotePermits implements PermitSource {
    private final ControlClient client;

    /** @param client whose owner this becomes */
    public RemotePermits(ControlClient client) {
        this.client = client;
    }

    @Override
    public PermitsView view() throws ControlException {
        List<Map<String, @Nullable Object>> lines = new ArrayList<>();
        client.ask(PermitsHandler.SHOW, arguments -> {}, lines::add);
        if (lines.isEmpty()) {
            throw new ControlException("the running bridge says nothing of its permits");
        }
        return PermitsJson.view(
                lines.get(0), lines.stream().skip(1).map(PermitsJson::row).toList());
    }

    @Override
    public String approve(String by, String hash) throws ControlException {
        return act(PermitsHandler.APPROVE, arguments -> {
            arguments.writeStringProperty("by", by);
            arguments.writeStringProperty("hash", hash);
        });
    }

    @Override
    public String withdraw(String by) throws ControlException {
        return act(PermitsHandler.WITHDRAW, arguments -> arguments.writeStringProperty("by", by));
    }

    private String act(String name, Consumer<JsonGenerator> arguments) throws ControlException {
        List<String> said = new ArrayList<>();
        client.ask(name, arguments, line -> said.add(Objects.toString(line.get("done"), "")));
        return String.join(" ", said);
    }

    @Override
    public void close() {
        client.close();
    }
}
