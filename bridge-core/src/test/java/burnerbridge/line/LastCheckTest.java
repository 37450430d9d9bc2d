package burnerbridge.line;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import burnerbridge.line.frame.Framing;
import burnerbridge.line.frame.MbapFraming;
import burnerbridge.line.frame.RtuFraming;
import burnerbridge.line.wire.Silence;
import burnerbridge.line.wire.WireTime;
import burnerbridge.model.HandClock;
import burnerbridge.model.Seed;
import burnerbridge.site.Points;
import burnerbridge.site.Role;
import burnerbridge.site.UnitId;
import burnerbridge.site.guard.Guard;
import java.time.Duration;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

/** Tries to get something past the last check. What may pass is worked out here once more, in another way. */
class LastCheckTest {
    private static final int MUTANTS = 40_000;
    private static final int UNIT = ScriptedPeer.UNIT;

    /** Data units with a letter for each half byte that is free: any value, or that of a rule below. */
    private static final String COIL_ON = "05 0010 FF00";

    private static final String COIL_OFF = "05 0010 0000";
    private static final String REGISTER = "06 002C ....";
    private static final String COILS = "0F 0013 000A 02 .. 0t";
    private static final String REGISTERS = "10 0001 0002 04 .... ....";
    /** Bits 2 and 4 of register 4: kept are all others. */
    private static final String BITS = "16 0004 FFEB 00bb";

    private static final List<String> ALLOWED = List.of(COIL_ON, COIL_OFF, REGISTER, COILS, REGISTERS, BITS);
    private static final List<WriteTemplate> TEMPLATES = List.of(
            Guards.coil(0x10),
            Guards.register(0x2C),
            Guards.coils(0x13, 10),
            Guards.registers(1, 2),
            Guards.bits(4, 0x14));

    /** How a data unit is framed, and whether a frame is whole; written down once more, apart from what is tested. */
    enum Shape {
        MBAP {
            @Override
            Framing framing() {
                return new MbapFraming();
            }

            @Override
            byte[] frame(int unit, byte[] pdu) {
                return ScriptedPeer.Shape.TCP.frame(new byte[] {0x12, 0x34}, unit, hex(pdu));
            }

            @Override
            boolean isWhole(byte[] frame) {
                return frame.length >= 8
                        && frame[2] == 0
                        && frame[3] == 0
                        && ((frame[4] & 0xFF) << 8 | frame[5] & 0xFF) == frame.length - 6;
            }

            @Override
            byte[] inside(byte[] frame) {
                return Arrays.copyOfRange(frame, 6, frame.length);
            }
        },
        RTU {
            @Override
            Framing framing() {
                HandClock clock = new HandClock();
                return new RtuFraming(new WireTime(9600, 11), new Silence(Duration.ZERO, clock, nanos -> {}), false);
            }

            @Override
            byte[] frame(int unit, byte[] pdu) {
                return ScriptedPeer.Shape.RTU.frame(new byte[0], unit, hex(pdu));
            }

            @Override
            boolean isWhole(byte[] frame) {
                return frame.length >= 4
                        && frame.length <= 256
                        && Arrays.equals(frame, frame(frame[0] & 0xFF, Arrays.copyOfRange(frame, 1, frame.length - 2)));
            }

            @Override
            byte[] inside(byte[] frame) {
                return Arrays.copyOf(frame, frame.length - 2);
            }
        };

        abstract Framing framing();

        abstract byte[] frame(int unit, byte[] pdu);

        abstract boolean isWhole(byte[] frame);

        /** Unit and data unit. */
        abstract byte[] inside(byte[] frame);

        boolean mayBeWritten(byte[] frame) {
            if (!isWhole(frame)) {
                return false;
            }
            String inside = hex(inside(frame));
            return ALLOWED.stream().anyMatch(pattern -> matches(hex(new byte[] {UNIT}) + pattern, inside));
        }

        boolean mayBeRead(byte[] frame) {
            return isWhole(frame) && inside(frame).length == 6 && inside(frame)[1] >= 1 && inside(frame)[1] <= 4;
        }
    }

    private static String hex(byte[] bytes) {
        return HexFormat.of().withUpperCase().formatHex(bytes);
    }

    private static boolean matches(String pattern, String text) {
        String places = pattern.replace(" ", "");
        if (places.length() != text.length()) {
            return false;
        }
        for (int i = 0; i < places.length(); i++) {
            if (!matches(places.charAt(i), text.charAt(i), i % 2)) {
                return false;
            }
        }
        return true;
    }

    /** A dot is anything; t the two coils of a last byte; b the bits 4, in the first half of its byte, and 2. */
    private static boolean matches(char place, char digit, int half) {
        int value = Character.digit(digit, 16);
        return switch (place) {
            case '.' -> true;
            case 't' -> value < 4;
            case 'b' -> value == 0 || value == (half == 0 ? 1 : 4);
            default -> place == digit;
        };
    }

    private static byte[] legal(Shape shape, Random dice) {
        StringBuilder pdu = new StringBuilder();
        String pattern = ALLOWED.get(dice.nextInt(ALLOWED.size())).replace(" ", "");
        for (int i = 0; i < pattern.length(); i++) {
            pdu.append(
                    switch (pattern.charAt(i)) {
                        case '.' -> Integer.toHexString(dice.nextInt(16));
                        case 't' -> Integer.toHexString(dice.nextInt(4));
                        case 'b' -> dice.nextBoolean() ? "0" : i % 2 == 0 ? "1" : "4";
                        default -> String.valueOf(pattern.charAt(i));
                    });
        }
        return shape.frame(UNIT, HexFormat.of().parseHex(pdu));
    }

    /** One field or byte of its inside becomes another, with an envelope that fits; or a byte of the whole frame. */
    private static byte[] mutant(Shape shape, byte[] frame, Random dice) {
        if (dice.nextInt(4) == 0) {
            return damaged(frame, dice);
        }
        byte[] inside = shape.inside(frame);
        byte[] other = dice.nextInt(3) == 0 ? shape.inside(legal(shape, dice)) : inside;
        byte[] changed = switch (dice.nextInt(6)) {
            case 0 -> damaged(inside, dice);
            case 1 -> withBit(inside, dice);
            case 2 -> Arrays.copyOf(inside, Math.max(2, inside.length - 1 - dice.nextInt(3)));
            case 3 -> Arrays.copyOf(inside, inside.length + 1 + dice.nextInt(4));
            case 4 -> withSmallNumber(inside, dice);
            default -> joined(inside, other, 1 + dice.nextInt(inside.length));
        };
        return shape.frame(changed[0] & 0xFF, Arrays.copyOfRange(changed, 1, changed.length));
    }

    private static byte[] damaged(byte[] bytes, Random dice) {
        byte[] damaged = bytes.clone();
        damaged[dice.nextInt(bytes.length)] = (byte) dice.nextInt(256);
        return damaged;
    }

    private static byte[] withBit(byte[] bytes, Random dice) {
        byte[] changed = bytes.clone();
        changed[dice.nextInt(bytes.length)] ^= (byte) (1 << dice.nextInt(8));
        return changed;
    }

    /** As functions, units, counts and addresses are. */
    private static byte[] withSmallNumber(byte[] bytes, Random dice) {
        byte[] changed = bytes.clone();
        changed[dice.nextInt(Math.min(7, bytes.length))] = (byte) dice.nextInt(24);
        return changed;
    }

    private static byte[] joined(byte[] one, byte[] other, int at) {
        byte[] joined = one.clone();
        for (int i = at; i < Math.min(one.length, other.length); i++) {
            joined[i] = other[i];
        }
        return joined;
    }

    private static boolean passes(Runnable check) {
        try {
            check.run();
            return true;
        } catch (IllegalStateException e) {
            assertThat(e).hasMessageContaining("nothing was sent");
            return false;
        }
    }

    @ParameterizedTest
    @EnumSource
    void ofMutantsOfLegalFramesOnlyThosePassThatDifferInTheirValueAlone(Shape shape) {
        Random dice = new Random(Seed.value());
        LastCheck check = new LastCheck(shape.framing(), TEMPLATES, Guards.ofUnit());
        int passed = 0;
        int refused = 0;
        for (int i = 0; i < MUTANTS; i++) {
            byte[] legal = legal(shape, dice);
            assertThat(passes(() -> check.requireWrite(legal)))
                    .as("legal: %s", hex(legal))
                    .isTrue();
            byte[] frame = mutant(shape, legal, dice);
            boolean may = shape.mayBeWritten(frame);
            assertThat(passes(() -> check.requireWrite(frame)))
                    .as("seed %s, mutant %s: %s", Seed.value(), i, hex(frame))
                    .isEqualTo(may);
            assertThat(passes(() -> check.requireRead(frame)))
                    .as("seed %s, mutant %s, as a read: %s", Seed.value(), i, hex(frame))
                    .isEqualTo(shape.mayBeRead(frame));
            passed += may ? 1 : 0;
            refused += may ? 0 : 1;
        }
        System.out.println("Last check, " + shape + ": of " + MUTANTS + " mutants " + passed + " differ in their value "
                + "alone and passed, " + refused + " were refused");
        assertThat(passed).isGreaterThan(1_000);
        assertThat(refused).isGreaterThan(20_000);
    }

    @ParameterizedTest
    @EnumSource
    void everyFunctionCodeIsRefusedThatIsNeitherARead(Shape shape) {
        LastCheck check = new LastCheck(shape.framing(), List.of(), Map.of());
        for (int function = 0; function < 256; function++) {
            byte[] frame = shape.frame(UNIT, new byte[] {(byte) function, 0, 1, 0, 1});
            assertThat(passes(() -> check.requireRead(frame))).isEqualTo(function >= 1 && function <= 4);
            assertThat(passes(() -> check.requireWrite(frame))).isFalse();
        }
    }

    /** A template that should never have come so far does not help. */
    @ParameterizedTest
    @EnumSource
    void whatIsProtectedIsRefusedWhateverTheTemplatesSay(Shape shape) {
        Guard guard = Guards.of(
                true,
                Points.as(Role.SAFETY_SETTING, Points.uint16("a", 0x2C)),
                Points.as(Role.CURVE, Points.uint16("b", 2)),
                Points.as(Role.LOCKOUT_RESET, Points.uint16("c", 4)));
        LastCheck check = new LastCheck(shape.framing(), TEMPLATES, Map.of(Guards.UNIT, guard));
        for (String pdu : new String[] {"06002C0000", "10000100020400010002", "160004FFEB0000"}) {
            byte[] frame = shape.frame(UNIT, ScriptedPeer.hex(pdu));
            assertThat(shape.mayBeWritten(frame)).isTrue();
            assertThatThrownBy(() -> check.requireWrite(frame))
                    .isInstanceOf(IllegalStateException.class)
                    .hasMessageContaining("it would reach ")
                    .hasMessageContaining("of boiler-1 at ");
        }
        byte[] coil = shape.frame(UNIT, ScriptedPeer.hex("050010FF00"));
        assertThat(passes(() -> check.requireWrite(coil))).isTrue();
    }

    @ParameterizedTest
    @EnumSource
    void aCoilMayLieAnywhereInTheRegistersUnlessTheTablesAreSaidToBeSeparate(Shape shape) {
        Guard guard = Guards.of(false, Points.as(Role.SETTING, Points.uint16("a", 900)));
        LastCheck check = new LastCheck(shape.framing(), TEMPLATES, Map.of(Guards.UNIT, guard));
        assertThat(passes(() -> check.requireWrite(shape.frame(UNIT, ScriptedPeer.hex("050010FF00")))))
                .isFalse();
        assertThat(passes(() -> check.requireWrite(shape.frame(UNIT, ScriptedPeer.hex("06002C0000")))))
                .isTrue();
    }

    @ParameterizedTest
    @EnumSource
    void aUnitOfWhichNothingIsKnownIsNotWritten(Shape shape) {
        LastCheck check = new LastCheck(shape.framing(), TEMPLATES, Map.of(new UnitId(3), Guards.beside()));
        assertThatThrownBy(() -> check.requireWrite(shape.frame(UNIT, ScriptedPeer.hex("06002C0000"))))
                .hasMessageContaining("nothing is known of what is protected in unit 17");
    }

    /** What differs from a legal frame in one thing only. */
    @ParameterizedTest
    @CsvSource({
        "17, 05 0010 0001",
        "17, 05 0010 00FF",
        "17, 05 0010 FF01",
        "17, 05 0011 FF00",
        "17, 05 0010 FF00 00",
        "17, 06 002D 0000",
        "17, 06 002C 00",
        "17, 06 002C 0000 00",
        "17, 06 012C 0000",
        "17, 0F 0013 000A 02 FF 04",
        "17, 0F 0013 000A 02 FF 80",
        "17, 0F 0013 0009 02 FF 01",
        "17, 0F 0013 000A 03 FF 03 00",
        "17, 0F 0013 000A 02 FF 03 00",
        "17, 0F 0013 000A 01 FF",
        "17, 10 0001 0002 04 0000 00",
        "17, 10 0001 0002 05 0000 0000 00",
        "17, 10 0001 0003 06 0000 0000 0000",
        "17, 10 0001 0001 02 0000",
        "17, 10 0000 0002 04 0000 0000",
        "17, 10 0001 0002 04 0000 0000 0000",
        "17, 10 0001 0000 00",
        "17, 16 0004 FFEB 0001",
        "17, 16 0004 FFEA 0000",
        "17, 16 0004 FFFF 0000",
        "17, 16 0004 0000 FFFF",
        "17, 16 0004 FFFB 0004",
        "17, 16 0005 FFEB 0000",
        "17, 16 0004 FFEB 0000 00",
        "17, 15 07 06 0004 0007 0001 0000",
        "17, 17 0001 0001 002C 0001 02 0000",
        "17, 08 0001 0000",
        "17, 06",
        "0, 06 002C 0000",
        "0, 05 0010 FF00",
        "18, 06 002C 0000",
        "255, 06 002C 0000",
        "248, 05 0010 FF00"
    })
    void oneThingThatDiffersIsEnough(int unit, String pdu) {
        for (Shape shape : Shape.values()) {
            LastCheck check = new LastCheck(shape.framing(), TEMPLATES, Guards.ofUnit());
            byte[] frame = shape.frame(unit, ScriptedPeer.hex(pdu));
            assertThat(passes(() -> check.requireWrite(frame))).isFalse();
            assertThat(passes(() -> check.requireRead(frame))).isFalse();
        }
    }

    @ParameterizedTest
    @CsvSource({
        "0001 0001 0006 11 06 002C 0000",
        "0001 0100 0006 11 06 002C 0000",
        "0001 0000 0007 11 06 002C 0000",
        "0001 0000 0005 11 06 002C 0000",
        "0001 0000 0106 11 06 002C 0000",
        "0001 0000 0006 11 06 002C 0000 00",
        "0001 0000 0006 11 06 002C 00",
        "0001 0000 0001 11",
        "0001 0000",
        "11 06 002C 0000"
    })
    void aHeaderThatIsNotOursDoesNotLeave(String frame) {
        LastCheck check = new LastCheck(new MbapFraming(), TEMPLATES, Guards.ofUnit());
        assertThatThrownBy(() -> check.requireWrite(ScriptedPeer.hex(frame)))
                .isInstanceOf(IllegalStateException.class)
                .hasMessageContaining("one whole frame");
        assertThat(passes(() -> check.requireRead(ScriptedPeer.hex(frame)))).isFalse();
    }
}
