package burnerbridge.benchmark.bacnet.device;

import com.serotonin.bacnet4j.LocalDevice;
import com.serotonin.bacnet4j.exception.BACnetServiceException;
import com.serotonin.bacnet4j.npdu.ip.IpNetworkBuilder;
import com.serotonin.bacnet4j.obj.AnalogInputObject;
import com.serotonin.bacnet4j.transport.DefaultTransport;
import com.serotonin.bacnet4j.type.enumerated.EngineeringUnits;
import com.serotonin.bacnet4j.type.enumerated.PropertyIdentifier;
import com.serotonin.bacnet4j.type.primitive.Real;
import java.util.ArrayList;
import java.util.List;

/** The reference: the library as it comes, with its own port, transport, maps and objects. */
final class LibraryServed implements Served {
    private static final int PREFIX = 8;

    private final LocalDevice device;
    private final List<AnalogInputObject> objects = new ArrayList<>();

    private LibraryServed(int port) {
        this.device = new LocalDevice(
                Device.INSTANCE,
                new DefaultTransport(new IpNetworkBuilder()
                        .withLocalBindAddress("127.0.0.1")
                        .withBroadcast("127.255.255.255", PREFIX)
                        .withPort(port)
                        .build()));
    }

    static LibraryServed start(int objects, int port) {
        LibraryServed served = new LibraryServed(port);
        try {
            for (int i = 0; i < objects; i++) {
                served.add(i);
            }
            served.device.initialize();
            served.device.sendGlobalBroadcast(served.device.getIAm());
        } catch (Exception e) {
            throw new IllegalStateException("the library does not start", e);
        }
        return served;
    }

    private void add(int number) throws BACnetServiceException {
        AnalogInputObject object = new AnalogInputObject(
                device, number + 1, MeasuredSite.objectName(number), 0, EngineeringUnits.percent, false);
        objects.add(object.supportCovReporting(MeasuredSite.CHANGE.floatValue()));
    }

    @Override
    public void change(int object, int value) {
        objects.get(object).writePropertyInternal(PropertyIdentifier.presentValue, new Real(value));
    }

    @Override
    public String state() {
        return "nothing is counted";
    }

    @Override
    public void close() {
        device.terminate();
    }
}
