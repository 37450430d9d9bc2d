package burnerbridge.write.encode;

import burnerbridge.line.WriteTemplate;
import burnerbridge.line.WriteTerms;
import burnerbridge.site.AddressRange;
import burnerbridge.site.SitePoint;
import burnerbridge.site.guard.Place;
import burnerbridge.site.permit.Functions;
import burnerbridge.site.permit.WritePermit;

/** What of a permit stands fast in every frame that it can lead to. */
public final class Templates {
    private static final int NO_MASK = 0;

    private Templates() {}

    /** @throws IllegalArgumentException where the permit's function cannot write the point */
    public static WriteTemplate of(SitePoint point, WritePermit permit) {
        if (!Encoder.isPossible(point.definition())) {
            throw new IllegalArgumentException(point.id() + " cannot be written: it is "
                    + point.definition().format().word());
        }
        AddressRange range = point.definition().addresses().get(0);
        int mask = Place.readBy(point.definition()).get(0).mask();
        boolean partial = !range.table().ofBits() && mask != Place.WHOLE_REGISTER;
        if (partial != (permit.function() == Functions.MASK)) {
            throw new IllegalArgumentException(
                    point.id() + ": " + (partial ? "some bits of a register are" : "whole registers and coils are not")
                            + " written by function " + Functions.MASK + " (was " + permit.function() + ")");
        }
        return new WriteTemplate(
                point.controller().unit(),
                permit.function(),
                range,
                partial ? mask : NO_MASK,
                WriteTerms.of(point.controller()));
    }
}
