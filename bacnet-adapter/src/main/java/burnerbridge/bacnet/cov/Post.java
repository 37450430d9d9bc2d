package burnerbridge.bacnet.cov;

import com.serotonin.bacnet4j.service.confirmed.ConfirmedRequestService;
import com.serotonin.bacnet4j.service.unconfirmed.UnconfirmedRequestService;
import com.serotonin.bacnet4j.type.constructed.Address;
import java.util.function.Consumer;

/** What carries notifications to their subscribers. Neither method blocks or throws. */
public interface Post {

    /** What became of a confirmed notification. */
    enum Reply {
        ACKNOWLEDGED,
        /** The peer answered with an error, a reject or an abort, so it is alive. */
        REFUSED,
        /** Nothing came, however often it was repeated. */
        SILENT
    }

    void tell(Address to, UnconfirmedRequestService notification);

    /** Sends a request until it is answered or given up, and says then which, once, on any thread. */
    void ask(Address to, ConfirmedRequestService notification, Consumer<Reply> done);
}
