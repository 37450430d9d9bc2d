package burnerbridge.bacnet.door;

import burnerbridge.bacnet.cov.CovDesk;
import burnerbridge.bacnet.edge.coding.ObjectId;
import burnerbridge.bacnet.edge.coding.Trouble;
import burnerbridge.bacnet.edge.service.Peer;
import burnerbridge.bacnet.edge.service.WriteDoor;
import burnerbridge.bacnet.plan.ObjectChoices;
import burnerbridge.bacnet.plan.ObjectPlan;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.PointId;
import burnerbridge.table.ControllerLink;
import burnerbridge.write.ask.Ask;
import burnerbridge.write.ask.Decision;
import burnerbridge.write.ask.Source;
import com.serotonin.bacnet4j.LocalDevice;
import com.serotonin.bacnet4j.obj.BACnetObject;
import com.serotonin.bacnet4j.type.primitive.ObjectIdentifier;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.atomic.LongAdder;

/** The objects of permitted points, and the way from their present values to the gate. Safe for any number of threads. */
public final class Door implements WriteDoor {
    private final Gate gate;
    private final Map<PointId, Pair> pairs = new LinkedHashMap<>();
    private final Map<ObjectId, RequestObject> requests = new HashMap<>();
    private final LongAdder admitted = new LongAdder();
    private final LongAdder refused = new LongAdder();

    /** What one point has. */
    private record Pair(RequestObject request, Optional<LeaseObject> lease) {
        List<BACnetObject> objects() {
            List<BACnetObject> objects = new ArrayList<>(List.of(request));
            lease.ifPresent(objects::add);
            return objects;
        }

        void tell() {
            request.tell();
            lease.ifPresent(LeaseObject::tell);
        }
    }

    public Door(ObjectPlan plan, ObjectChoices choices, LocalDevice device, CovDesk desk, Gate gate) {
        this.gate = gate;
        for (ObjectPlan.Asked asked : plan.asked()) {
            RequestObject request = new RequestObject(device, desk, asked, choices, gate);
            Optional<LeaseObject> lease = asked.lease().map(place -> new LeaseObject(device, desk, asked, place, gate));
            pairs.put(asked.point().id(), new Pair(request, lease));
            ObjectIdentifier id = request.getId();
            requests.put(new ObjectId(id.getObjectType().intValue(), id.getInstanceNumber()), request);
        }
    }

    /** Whether there is anything to be asked for. */
    public boolean isEmpty() {
        return pairs.isEmpty();
    }

    /** All of them, in the order of the permits. */
    public List<BACnetObject> objects() {
        return pairs.values().stream().flatMap(pair -> pair.objects().stream()).toList();
    }

    /** Those of the points of one controller. */
    public List<BACnetObject> objectsOf(ControllerDefinition controller) {
        return pairs.values().stream()
                .filter(pair -> pair.request().asked().point().controller().equals(controller))
                .flatMap(pair -> pair.objects().stream())
                .toList();
    }

    /** What an object of this door belongs to; empty for every other object. */
    public Optional<ObjectPlan.Asked> asked(BACnetObject object) {
        return object instanceof RequestObject request ? Optional.of(request.asked()) : Optional.empty();
    }

    /** Takes over whether a controller answers. */
    public void show(ControllerDefinition controller, ControllerLink link) {
        pairs.values().stream()
                .map(Pair::request)
                .filter(request -> request.asked().point().controller().equals(controller))
                .forEach(request -> request.apply(link.state()));
    }

    /** Tells the subscribers of one point what changed. */
    void tell(PointId point) {
        Pair pair = pairs.get(point);
        if (pair != null) {
            pair.tell();
        }
    }

    /** Tells all subscribers what changed, be it by time alone. */
    void tellAll() {
        pairs.values().forEach(Pair::tell);
    }

    Gate gate() {
        return gate;
    }

    @Override
    public boolean leadsTo(ObjectId object) {
        return requests.containsKey(object);
    }

    @Override
    public Optional<Trouble> ask(Wish wish, Peer from) {
        RequestObject request = requests.get(wish.object());
        if (request == null) {
            return Optional.of(Trouble.WRITE_ACCESS_DENIED);
        }
        Coding.Meant meant = request.coding().meant(wish.value());
        Decision decision = gate.ask(new Ask(
                request.asked().point().id(),
                meant.wanted(),
                wish.priority(),
                new Source.Bacnet(from.address(), from.port(), from.network())));
        if (decision instanceof Decision.Refused no) {
            refused.increment();
            return Optional.of(Codes.of(no.question(), meant.otherwise()));
        }
        admitted.increment();
        return Optional.empty();
    }

    /** Asks that the gate has admitted. */
    public long admittedCount() {
        return admitted.sum();
    }

    /** Asks that the gate has refused; writes that lead to nothing that can be asked for are not among them. */
    public long refusedCount() {
        return refused.sum();
    }
}
