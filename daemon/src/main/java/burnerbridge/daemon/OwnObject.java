package burnerbridge.daemon;

import burnerbridge.bacnet.plan.ObjectChoices;
import burnerbridge.bacnet.plan.ObjectPlan;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.ObjectKind;
import burnerbridge.site.Site;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * An object that a controller has beside those that show its points.
 *
 * @param kind its type, written as the kinds of points' objects are
 * @param shows what it tells, for people
 */
record OwnObject(ControllerDefinition controller, String kind, int instance, String name, String shows) {
    private static final String STRUCTURED_VIEW = "structured-view";

    /** Those that the BACnet side would serve; none where it is off. */
    static List<OwnObject> of(Site site) {
        return plan(site).map(OwnObject::of).orElse(List.of());
    }

    /** What the BACnet side would serve; empty where it is off. */
    static Optional<ObjectPlan> plan(Site site) {
        return site.bacnet()
                .map(bacnet -> ObjectPlan.of(
                        site,
                        new ObjectChoices(
                                bacnet.options().basicObjects(),
                                bacnet.options().objectNames())));
    }

    private static List<OwnObject> of(ObjectPlan plan) {
        List<OwnObject> all = new ArrayList<>();
        for (ObjectPlan.OfController own : plan.controllers()) {
            own.answers().ifPresent(name -> all.add(of(own, ObjectKind.BINARY_INPUT.word(), name, "answers or not")));
            own.view().ifPresent(name -> all.add(of(own, STRUCTURED_VIEW, name, "all its objects")));
        }
        plan.asked().forEach(asked -> {
            all.add(of(
                    asked,
                    asked.kind(),
                    asked.instance(),
                    asked.name(),
                    "what " + asked.point().id() + " is asked to be"));
            asked.lease()
                    .ifPresent(lease -> all.add(of(
                            asked,
                            ObjectKind.ANALOG_VALUE,
                            lease.instance(),
                            lease.name(),
                            "how long that holds, in s")));
        });
        return all;
    }

    private static OwnObject of(ObjectPlan.Asked asked, ObjectKind kind, int instance, String name, String shows) {
        return new OwnObject(asked.point().controller(), kind.word(), instance, name, shows);
    }

    private static OwnObject of(ObjectPlan.OfController own, String kind, String name, String shows) {
        return new OwnObject(own.controller(), kind, own.instance(), name, shows);
    }
}
