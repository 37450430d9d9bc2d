package burnerbridge.bacnet.served;

import burnerbridge.bacnet.cov.CovDesk;
import burnerbridge.bacnet.objects.StatusObject;
import burnerbridge.table.ControllerLink;
import com.serotonin.bacnet4j.LocalDevice;
import com.serotonin.bacnet4j.type.enumerated.BinaryPV;
import com.serotonin.bacnet4j.type.enumerated.ObjectType;
import com.serotonin.bacnet4j.type.enumerated.Polarity;
import com.serotonin.bacnet4j.type.enumerated.PropertyIdentifier;
import com.serotonin.bacnet4j.type.enumerated.Reliability;
import java.util.Optional;

/**
 * Whether a controller answers, as a Binary Input: the one object in which a pulled cable is a change, so that
 * it need not be one in each point. Until a controller was asked nobody knows.
 */
final class AnswersObject extends StatusObject {

    AnswersObject(LocalDevice device, CovDesk desk, int instance, String name) {
        super(device, desk, ObjectType.binaryInput, instance, name, BinaryPV.inactive);
        text(PropertyIdentifier.description, "Whether the controller answers");
        set(PropertyIdentifier.polarity, Polarity.normal);
        text(PropertyIdentifier.inactiveText, "does not answer");
        text(PropertyIdentifier.activeText, "answers");
    }

    void apply(ControllerLink link) {
        switch (link.state()) {
            case UP -> show(Optional.of(BinaryPV.active), Reliability.noFaultDetected);
            case DOWN -> show(Optional.of(BinaryPV.inactive), Reliability.noFaultDetected);
            case UNKNOWN -> show(Optional.of(BinaryPV.inactive), Reliability.unreliableOther);
        }
    }
}
