package burnerbridge.write;

import burnerbridge.model.BridgeClock;
import burnerbridge.model.Stamp;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.Name;
import burnerbridge.site.PointId;
import burnerbridge.site.Site;
import burnerbridge.site.SitePoint;
import burnerbridge.site.guard.Guard;
import burnerbridge.site.guard.PhysicalUnit;
import burnerbridge.site.guard.Place;
import burnerbridge.site.guard.Protected;
import burnerbridge.site.permit.WritePermit;
import burnerbridge.table.ValueTable;
import burnerbridge.write.approval.Approval;
import burnerbridge.write.approval.ApprovalState;
import burnerbridge.write.approval.Approvals;
import burnerbridge.write.approval.ApprovedItems;
import burnerbridge.write.audit.AuditEntry;
import burnerbridge.write.audit.AuditHead;
import burnerbridge.write.audit.AuditKind;
import burnerbridge.write.audit.AuditTrail;
import burnerbridge.write.memory.GateMemory;
import burnerbridge.write.memory.PointMemory;
import burnerbridge.write.memory.Ratchet;
import burnerbridge.write.store.Disk;
import java.io.IOException;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;

/**
 * What a person approves and withdraws, on a running and on a stopped bridge alike. It opens nothing by itself: the gate
 * of a running bridge is told apart. Safe for any number of threads.
 */
public final class ApprovalDesk {
    private final Site site;
    private final BridgeClock clock;
    private final AuditTrail audit;
    private final GateMemory memory;
    private final Ratchet ratchet;
    private final Approvals approvals;
    private final Identities identities;
    private final Map<PhysicalUnit, List<ControllerDefinition>> units;
    private final Set<String> remembered = new HashSet<>();

    /** Why an approval cannot be given; nothing was changed. */
    public static final class CannotApproveException extends Exception {
        private static final long serialVersionUID = 1L;

        CannotApproveException(String message) {
            super(message);
        }
    }

    private ApprovalDesk(
            Site site,
            Disk disk,
            ValueTable table,
            BridgeClock clock,
            AuditTrail audit,
            GateMemory memory,
            Ratchet ratchet) {
        this.site = site;
        this.clock = clock;
        this.audit = audit;
        this.memory = memory;
        this.ratchet = ratchet;
        this.approvals = new Approvals(disk);
        this.identities = new Identities(table);
        this.units = site.controllers().stream()
                .collect(Collectors.groupingBy(PhysicalUnit::of, LinkedHashMap::new, Collectors.toList()));
    }

    /**
     * @param table in which the identities of the controllers are read
     * @throws IOException where something that was kept cannot be read, is damaged or gone; with words for people
     */
    public static ApprovalDesk open(Site site, Disk disk, ValueTable table, BridgeClock clock) throws IOException {
        AuditTrail audit = AuditTrail.open(disk, clock);
        GateMemory memory = GateMemory.open(disk, audit.memory());
        Ratchet ratchet = Ratchet.open(disk, audit.ratchet());
        return new ApprovalDesk(site, disk, table, clock, audit, memory, ratchet);
    }

    GateKeeping keeping() {
        return new GateKeeping(
                audit,
                memory,
                ratchet,
                site.permits().stream().map(WritePermit::point).toList(),
                clock);
    }

    /** Whether what was approved is what stands here. */
    Authority authority() {
        return authority(state());
    }

    /** The same, going by what was read already. */
    Authority authority(ApprovalState state) {
        return Authority.of(site, state);
    }

    /** Why what stands here is not approved; empty where it is. */
    public Optional<String> whyNotApproved() {
        return whyNotApproved(state());
    }

    /** The same, going by what was read already. */
    public Optional<String> whyNotApproved(ApprovalState state) {
        Authority now = authority(state);
        return now.isInForce() ? Optional.empty() : Optional.of(now.why());
    }

    Identities identities() {
        return identities;
    }

    public ApprovalState state() {
        return approvals.read();
    }

    /** The newest record of the audit that is on the disk for good. */
    public AuditHead head() {
        return audit.head();
    }

    /** What of a unit was once protected and still is, beside what the site says; of the controllers last approved. */
    Guard known(PhysicalUnit unit, Guard guard, ApprovalState state) {
        Map<Name, String> approved = state.last().map(Approval::identities).orElse(Map.of());
        return guard.with(ratchet.of(unit, joined(unit, approved)));
    }

    private String joined(PhysicalUnit unit, Map<Name, String> of) {
        return Ratchet.joined(units.getOrDefault(unit, List.of()).stream()
                .map(controller -> of.getOrDefault(controller.name(), ""))
                .toList());
    }

    /** Who answers now, by the names of the controllers; those that have not said it are not in it. */
    public Map<Name, String> identitiesNow() {
        Map<Name, String> now = new TreeMap<>();
        for (ControllerDefinition controller : site.controllers()) {
            identities.of(controller).ifPresent(identity -> now.put(controller.name(), identity));
        }
        return now;
    }

    /** What there is to approve now. */
    public ApprovedItems items() {
        return ApprovedItems.of(site, identitiesNow());
    }

    /**
     * Keeps for ever what is protected now, as soon as it is known of which controllers. Does nothing where all of it is
     * kept already.
     *
     * @throws IOException where it could not be kept
     */
    synchronized void remember() throws IOException {
        Map<Name, String> now = identitiesNow();
        for (Map.Entry<PhysicalUnit, List<ControllerDefinition>> unit : units.entrySet()) {
            String identity = joined(unit.getKey(), now);
            String key = unit.getKey() + " " + identity;
            if ((!identity.isEmpty() || isNameless(unit.getValue())) && !remembered.contains(key)) {
                ratchet.remember(unit.getKey(), identity, Guard.ofUnit(unit.getValue()));
                remembered.add(key);
            }
        }
    }

    /** Whose controllers nothing tells apart can have no permit, so that it matters only where others have. */
    private boolean isNameless(List<ControllerDefinition> controllers) {
        return !site.permits().isEmpty()
                && controllers.stream()
                        .allMatch(controller ->
                                controller.type().options().identity().isEmpty());
    }

    /** What is remembered of a point over a restart. */
    public PointMemory memoryOf(PointId point) {
        return memory.of(point);
    }

    /** Points of which a demand stood when a bridge ended, and that have no permit any more, so that nothing ends it. */
    List<String> leftBehind() {
        Set<String> permitted =
                site.permits().stream().map(permit -> permit.point().toString()).collect(Collectors.toSet());
        return memory.all().entrySet().stream()
                .filter(point -> point.getValue().owed() && !permitted.contains(point.getKey()))
                .map(Map.Entry::getKey)
                .sorted()
                .toList();
    }

    /**
     * Approves what there is now, and wakes all permits up.
     *
     * @param by who approves
     * @param hash of what the person saw; empty: whatever there is
     * @throws CannotApproveException where a controller has not said who it is, an address was once protected, or it is not
     *     what the person saw
     * @throws IOException where it could not be kept
     */
    public synchronized Approval approve(String by, Optional<String> hash) throws CannotApproveException, IOException {
        ApprovedItems now = items();
        require(now, hash);
        remember();
        Stamp at = clock.now();
        Approval approval = Approval.of(now, by, at.wall(), at.believed());
        audit.recordForced(AuditEntry.of(AuditKind.APPROVAL)
                .from(by)
                .said(site.permits().size() + " write permits are approved")
                .approval(now.hash())
                .remembering(memory.generation(), ratchet.generation()));
        for (WritePermit permit : site.permits()) {
            // One by one, each as it is at that moment: what is spent and owed changes meanwhile on other threads.
            memory.change(permit.point(), PointMemory::awake);
        }
        approvals.write(approval);
        return approval;
    }

    private void require(ApprovedItems now, Optional<String> hash) throws CannotApproveException {
        if (site.permits().isEmpty()) {
            throw new CannotApproveException("there is no write permit to approve");
        }
        List<String> unknown = now.identities().entrySet().stream()
                .filter(controller -> controller.getValue().isEmpty())
                .map(controller -> controller.getKey().text())
                .toList();
        if (!unknown.isEmpty()) {
            throw new CannotApproveException(
                    "who answers as " + String.join(", ", unknown) + " is not known: its identity must have been read");
        }
        for (ControllerDefinition controller : site.controllers()) {
            Optional<ControllerDefinition> same = identities.sameAs(controller);
            if (now.identities().containsKey(controller.name()) && same.isPresent()) {
                throw new CannotApproveException(controller.name() + " and "
                        + same.get().name() + " both say that they are "
                        + now.identities().get(controller.name()));
            }
        }
        requireFree(now);
        if (hash.isPresent() && !hash.get().equals(now.hash())) {
            throw new CannotApproveException(
                    "what would be approved is not what was shown: the running bridge was started with another site"
                            + " folder, or a controller is another since; start the bridge again, and look again");
        }
    }

    private void requireFree(ApprovedItems now) throws CannotApproveException {
        Map<PhysicalUnit, Guard> guards = Guard.of(site.controllers());
        List<SitePoint> points = site.points();
        for (WritePermit permit : site.permits()) {
            SitePoint point = points.stream()
                    .filter(one -> one.id().equals(permit.point()))
                    .findFirst()
                    .orElseThrow();
            PhysicalUnit unit = PhysicalUnit.of(point.controller());
            Guard guard = guards.getOrDefault(unit, Guard.ofUnit(List.of()))
                    .with(ratchet.of(unit, joined(unit, now.identities())));
            Optional<Protected> no = guard.against(Place.writtenBy(point.definition()));
            if (no.isPresent()) {
                throw new CannotApproveException(permit.point() + " at "
                        + point.definition().addressText() + " meets what is never written: "
                        + no.get().why());
            }
        }
    }

    /**
     * Takes the approval back.
     *
     * @throws IOException where it could not be kept
     */
    public synchronized void withdraw(String by) throws IOException {
        Stamp at = clock.now();
        approvals.withdraw(by, at.wall(), at.believed());
        audit.recordForced(AuditEntry.of(AuditKind.WITHDRAWAL)
                .from(by)
                .said("nothing is approved any more")
                .remembering(memory.generation(), ratchet.generation()));
    }

    void record(AuditKind kind, String sentence) throws IOException {
        audit.recordForced(AuditEntry.of(kind)
                .from("bridge")
                .said(sentence)
                .remembering(memory.generation(), ratchet.generation()));
    }

    /** Forces what waits. */
    public void close() throws IOException {
        audit.close();
    }
}
