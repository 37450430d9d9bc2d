package burnerbridge.plan;

import burnerbridge.line.ReadRequest;
import burnerbridge.line.ReadTerms;
import burnerbridge.site.AddressRange;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.ReadRules;
import burnerbridge.site.RegisterTable;
import burnerbridge.site.SitePoint;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;

/**
 * The reads of one controller. What must be read in a way of its own (again until two replies agree, words
 * that are apart, what a read clears) has its own reads: with others in them they would bring more than they
 * must at every repetition, or agree less often. All else is in the cheapest reads.
 */
final class Reads {
    private static final Comparator<ReadBlock> BY_ADDRESS = Comparator.comparing(ReadBlock::function)
            .thenComparing(block -> block.requests().get(0).first())
            .thenComparing(block -> block.requests().get(0).count())
            .thenComparing(ReadBlock::every)
            .thenComparing(block -> block.points().get(0).ordinal());

    private final ControllerDefinition controller;
    private final ReadRules rules;
    private final List<ReadBlock> blocks = new ArrayList<>();
    private final Map<RegisterTable, List<Piece>> pieces = new EnumMap<>(RegisterTable.class);

    private Reads(ControllerDefinition controller) {
        this.controller = controller;
        this.rules = controller.type().rules();
    }

    /**
     * Plans them.
     *
     * @param points of one controller, all of them polled
     * @param readable of its type
     * @return in the order of functions and addresses
     * @throws IllegalArgumentException where a read would take more than its controller answers at once, or
     *     anything reserved; a site that was checked has no such point
     */
    static List<ReadBlock> of(List<SitePoint> points, Readable readable, CostModel model, Duration turnaround) {
        Reads reads = new Reads(points.get(0).controller());
        Bundle.of(points).forEach(reads::sort);
        reads.pieces.forEach(
                (table, some) -> Rides.of(some, new Ground(table, reads.rules, readable, model, turnaround.toNanos()))
                        .forEach(run -> reads.blocks.add(reads.block(table, run))));
        return reads.blocks.stream().sorted(BY_ADDRESS).toList();
    }

    private void sort(Bundle bundle) {
        bundle.ranges().forEach(range -> requireAllowed(bundle, range));
        if (bundle.isAlone()) {
            blocks.add(alone(bundle));
        } else {
            RegisterTable table = bundle.ranges().get(0).table();
            pieces.computeIfAbsent(table, t -> new ArrayList<>()).add(Piece.of(bundle));
        }
    }

    private void requireAllowed(Bundle bundle, AddressRange range) {
        rules.objectionTo(range).ifPresent(objection -> {
            throw new IllegalArgumentException(bundle.points().get(0).id() + ": " + objection);
        });
    }

    private ReadBlock alone(Bundle bundle) {
        List<ReadRequest> requests = bundle.ranges().stream()
                .map(range -> request(range, bundle.isOnce()))
                .toList();
        return new ReadBlock(controller, requests, bundle.isTwice(), bundle.every(), bundle.points());
    }

    private ReadBlock block(RegisterTable table, Run run) {
        ReadRequest request = request(new AddressRange(table, run.first(), run.last()), false);
        return new ReadBlock(controller, List.of(request), false, Duration.ofNanos(run.every()), run.points());
    }

    private ReadRequest request(AddressRange range, boolean once) {
        return new ReadRequest(
                controller.unit(),
                range.table(),
                range.first(),
                range.count(),
                new ReadTerms(controller.anyReplyUnit(), once, rules.pause()));
    }
}
