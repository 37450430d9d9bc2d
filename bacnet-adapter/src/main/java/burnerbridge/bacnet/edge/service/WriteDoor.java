package burnerbridge.bacnet.edge.service;

import burnerbridge.bacnet.edge.coding.ObjectId;
import burnerbridge.bacnet.edge.coding.Tag;
import burnerbridge.bacnet.edge.coding.Trouble;
import java.util.List;
import java.util.Optional;

/** Where asks to write go. Used on the port's own threads; answers at once and never throws. */
public interface WriteDoor {
    /** Where nothing can be written. */
    WriteDoor NONE = new WriteDoor() {
        @Override
        public boolean leadsTo(ObjectId object) {
            return false;
        }

        @Override
        public Optional<Trouble> ask(Wish wish, Peer from) {
            return Optional.of(Trouble.WRITE_ACCESS_DENIED);
        }
    };

    /**
     * What somebody asks that the Present_Value of an object be.
     *
     * @param value all tags of it; not empty
     * @param priority 1 to 16
     */
    record Wish(ObjectId object, List<Tag> value, int priority) {
        public Wish {
            value = List.copyOf(value);
        }
    }

    /** Whether an object's Present_Value can be asked for; of no other object, and no other property, can anything. */
    boolean leadsTo(ObjectId object);

    /** Why it is refused; empty where it is admitted, which is not yet written. */
    Optional<Trouble> ask(Wish wish, Peer from);
}
