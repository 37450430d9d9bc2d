package burnerbridge.daemon;

import burnerbridge.bacnet.plan.ObjectChoices;
import burnerbridge.bacnet.plan.ObjectPlan;
import burnerbridge.site.Site;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Random;

/** Asks by WriteProperty and WritePropertyMultiple, right ones and wrong ones, and by every service that is not offered. */
final class AsksByBacnet {
    private static final int NONE = -1;
    private static final int PRESENT_VALUE = 85;
    private static final int SIMPLE_ACK = 0x20;
    private static final int KEPT = 6;
    private static final int LOWEST = 16;
    private static final int WRITE_PROPERTY = 15;
    private static final int WRITE_PROPERTY_MULTIPLE = 16;
    /** Acknowledge and subscribe nothing, create and delete nothing, no file, no device control, nothing private. */
    private static final int[] OTHER_SERVICES = {7, 8, 9, 10, 11, 17, 18, 20, 27};

    private final ManyUnits plant;
    private final AskLedger ledger;
    private final HandMadeStation station;
    private final Random dice;
    private final Map<AskTarget, Integer> objects = new HashMap<>();
    private final List<AskTarget> targets = ManyUnits.targets();
    private final List<Integer> others = new ArrayList<>();

    /**
     * One property of one object.
     *
     * @param index of an array; {@link #NONE} for the property itself
     * @param priority {@link #NONE} for none
     * @param target of the point that it would write
     * @param mayBeDone false where it must be refused whatever the gate knows
     * @param register what its registers would hold; {@link #NONE} where nothing would be written
     */
    @SuppressWarnings("ArrayRecordComponent") // never compared
    private record Attempt(
            int object,
            int property,
            int index,
            byte[] value,
            int priority,
            AskTarget target,
            boolean mayBeDone,
            int register) {

        Attempt wrong() {
            return new Attempt(object, property, index, value, priority, target, false, NONE);
        }

        byte[] objectParameter() {
            return new byte[] {0x0C, (byte) (object >> 24), (byte) (object >> 16), (byte) (object >> 8), (byte) object};
        }

        /** What stands behind the object. @param tag the number of the property's: 1 of one, 0 of several */
        byte[] parameters(int tag) {
            ByteArrayOutputStream octets = new ByteArrayOutputStream();
            octets.write(tag << 4 | (property > 0xFF ? 0x0A : 0x09));
            if (property > 0xFF) {
                octets.write(property >> 8);
            }
            octets.write(property);
            if (index != NONE) {
                octets.write((tag + 1) << 4 | 0x09);
                octets.write(index);
            }
            octets.write((tag + 2) << 4 | 0x0E);
            octets.writeBytes(value);
            octets.write((tag + 2) << 4 | 0x0F);
            if (priority != NONE) {
                octets.write((tag + 3) << 4 | 0x09);
                octets.write(priority);
            }
            return octets.toByteArray();
        }
    }

    AsksByBacnet(ManyUnits plant, AskLedger ledger, Site site, HandMadeStation station, long seed) {
        this.plant = plant;
        this.ledger = ledger;
        this.station = station;
        this.dice = new Random(seed);
        ObjectPlan plan = ObjectPlan.of(site, ObjectChoices.USUAL);
        for (ObjectPlan.Asked asked : plan.asked()) {
            String controller = asked.point().id().controller().text();
            boolean load = asked.point().id().point().text().equals("load-demand");
            objects.put(
                    new AskTarget(Integer.parseInt(controller.substring("boiler-".length())), load),
                    (load ? 2 : 5) << 22 | asked.instance());
            asked.lease().ifPresent(lease -> others.add(2 << 22 | lease.instance()));
        }
        for (int type = 0; type < 6; type++) {
            for (ObjectPlan.Served served : plan.served()) {
                others.add(type << 22 | served.instance());
            }
        }
        others.add(8 << 22 | 3);
        others.removeAll(objects.values());
    }

    /** One request and its answer. */
    void one() throws IOException {
        int kind = dice.nextInt(20);
        if (kind == 0) {
            otherService();
        } else if (kind < 4) {
            several();
        } else {
            Attempt attempt = attempt(kind);
            byte[] apdu = request(WRITE_PROPERTY, attempt.objectParameter(), attempt.parameters(1));
            byte[] answer = station.ask(apdu);
            told(List.of(attempt), answer);
            if (dice.nextInt(20) == 0 && answer.length > 0 && station.ask(apdu)[0] != answer[0]) {
                ledger.wrong("a repeated request has another answer: "
                        + HexFormat.of().formatHex(apdu));
            }
        }
    }

    private void otherService() throws IOException {
        byte[] noise = new byte[dice.nextInt(40)];
        dice.nextBytes(noise);
        int service = OTHER_SERVICES[dice.nextInt(OTHER_SERVICES.length)];
        byte[] answer = station.ask(request(service, noise, new byte[0]));
        ledger.count("bacnet other service");
        if (answer.length > 0 && (answer[0] & 0xF0) <= 0x30) {
            ledger.wrong("service " + service + " was answered with "
                    + HexFormat.of().formatHex(answer));
        }
    }

    private void several() throws IOException {
        List<Attempt> attempts = new ArrayList<>();
        ByteArrayOutputStream parameters = new ByteArrayOutputStream();
        for (int i = 1 + dice.nextInt(4); i > 0; i--) {
            Attempt attempt = attempt(4 + dice.nextInt(16));
            attempts.add(attempt);
            parameters.writeBytes(attempt.objectParameter());
            parameters.write(0x1E);
            parameters.writeBytes(attempt.parameters(0));
            parameters.write(0x1F);
        }
        told(attempts, station.ask(request(WRITE_PROPERTY_MULTIPLE, parameters.toByteArray(), new byte[0])));
    }

    /** Those before the first that must be refused may have been done, whatever the answer is. */
    private void told(List<Attempt> attempts, byte[] answer) {
        boolean acknowledged = answer.length > 0 && (answer[0] & 0xF0) == SIMPLE_ACK;
        ledger.count(answer.length == 0 ? "bacnet no answer" : acknowledged ? "bacnet admitted" : "bacnet refused");
        if (acknowledged && attempts.stream().anyMatch(attempt -> !attempt.mayBeDone())) {
            ledger.wrong("admitted, and must not be: " + attempts);
        }
        boolean single = attempts.size() == 1;
        for (Attempt attempt : attempts) {
            if (!attempt.mayBeDone()) {
                return;
            }
            if (attempt.register() >= 0 && (acknowledged || !single || answer.length == 0)) {
                ledger.mayLeave(attempt.target(), attempt.register());
            }
        }
    }

    private byte[] request(int service, byte[] first, byte[] second) {
        ByteArrayOutputStream apdu = new ByteArrayOutputStream();
        apdu.writeBytes(new byte[] {0x00, 0x04, (byte) station.nextInvokeId(), (byte) service});
        apdu.writeBytes(first);
        apdu.writeBytes(second);
        return apdu.toByteArray();
    }

    private Attempt attempt(int kind) {
        AskTarget target = targets.get(dice.nextInt(targets.size()));
        int object = Objects.requireNonNull(objects.get(target));
        int register = kind < 17 ? near(target) : anywhere(target);
        Attempt legal = new Attempt(
                object, PRESENT_VALUE, NONE, value(target, register), usualPriority(), target, true, register);
        return switch (kind) {
            case 4 -> with(legal, notOfItsRange(target)).wrong();
            case 5 -> with(legal, notOfItsType(target)).wrong();
            case 6 ->
                at(legal, dice.nextInt(3) == 0 ? 0 : dice.nextBoolean() ? KEPT : 17 + dice.nextInt(200))
                        .wrong();
            case 7 -> of(legal, object, otherProperty(), NONE).wrong();
            case 8 -> of(legal, object, PRESENT_VALUE, dice.nextInt(18)).wrong();
            case 9 ->
                of(legal, others.get(dice.nextInt(others.size())), dice.nextInt(512), NONE)
                        .wrong();
            case 10 ->
                new Attempt(object, PRESENT_VALUE, NONE, new byte[] {0x00}, legal.priority(), target, true, NONE);
            default -> legal;
        };
    }

    private static Attempt with(Attempt attempt, byte[] value) {
        return new Attempt(
                attempt.object(),
                attempt.property(),
                attempt.index(),
                value,
                attempt.priority(),
                attempt.target(),
                attempt.mayBeDone(),
                attempt.register());
    }

    private static Attempt at(Attempt attempt, int priority) {
        return new Attempt(
                attempt.object(),
                attempt.property(),
                attempt.index(),
                attempt.value(),
                priority,
                attempt.target(),
                attempt.mayBeDone(),
                attempt.register());
    }

    private static Attempt of(Attempt attempt, int object, int property, int index) {
        return new Attempt(
                object,
                property,
                index,
                attempt.value(),
                attempt.priority(),
                attempt.target(),
                attempt.mayBeDone(),
                attempt.register());
    }

    private int usualPriority() {
        int priority = 1 + dice.nextInt(LOWEST + 1);
        return priority == KEPT ? 8 : priority > LOWEST ? NONE : priority;
    }

    private int otherProperty() {
        int property = dice.nextInt(512);
        return property == PRESENT_VALUE ? property + 1 : property;
    }

    private int anywhere(AskTarget target) {
        return target.load()
                ? AskTarget.LOWEST + dice.nextInt(AskTarget.HIGHEST - AskTarget.LOWEST + 1)
                : dice.nextInt(2);
    }

    /** Within a step of what is there. */
    private int near(AskTarget target) {
        return target.load() ? near(plant.holds(target), dice) : dice.nextInt(2);
    }

    static int near(int holds, Random dice) {
        int wanted = holds + dice.nextInt(2 * AskTarget.STEP - 1) - AskTarget.STEP + 1;
        return Math.max(AskTarget.LOWEST, Math.min(AskTarget.HIGHEST, wanted));
    }

    private static byte[] value(AskTarget target, int register) {
        return target.load() ? real(register / 10f) : new byte[] {(byte) 0x91, (byte) register};
    }

    private static byte[] real(float value) {
        int bits = Float.floatToIntBits(value);
        return new byte[] {0x44, (byte) (bits >> 24), (byte) (bits >> 16), (byte) (bits >> 8), (byte) bits};
    }

    private byte[] notOfItsRange(AskTarget target) {
        if (!target.load()) {
            return new byte[] {(byte) 0x91, (byte) (2 + dice.nextInt(254))};
        }
        float[] some = {
            Float.NaN,
            Float.POSITIVE_INFINITY,
            Float.NEGATIVE_INFINITY,
            -0.1f,
            Float.MAX_VALUE,
            Float.MIN_VALUE,
            19.94f,
            90.06f,
            -50f,
            6553.6f + 50
        };
        return real(some[dice.nextInt(some.length)]);
    }

    private byte[] notOfItsType(AskTarget target) {
        List<byte[]> some = List.of(
                target.load() ? new byte[] {(byte) 0x91, 1} : real(1),
                new byte[] {0x21, 50},
                new byte[] {0x31, 50},
                new byte[] {0x11},
                new byte[] {0x55, 0x08, 0x40, 0x49, 0, 0, 0, 0, 0, 0},
                new byte[] {0x75, 0x04, 0x00, 0x33, 0x30, 0x2E},
                new byte[] {0x62, 0x01, 0x02},
                new byte[] {(byte) 0x82, 0x00, (byte) 0xFF},
                new byte[] {0x2E, 0x44, 0x42, 0x48, 0, 0, 0x2F});
        return some.get(dice.nextInt(some.size()));
    }
}
