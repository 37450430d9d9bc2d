package burnerbridge.config.point;

import burnerbridge.site.PointFormat;

/** Which bits of its one register a format looks at; all of them where it looks at whole registers. */
record RegisterPart(int mask) {
    private static final int ALL = 0xFFFF;

    static RegisterPart of(PointFormat format) {
        if (format instanceof PointFormat.RegisterBit bit) {
            return new RegisterPart(1 << bit.index());
        }
        if (format instanceof PointFormat.BitField field) {
            return new RegisterPart(((1 << field.count()) - 1) << field.low());
        }
        if (format instanceof PointFormat.HalfRegister half) {
            return new RegisterPart(half.high() ? 0xFF00 : 0x00FF);
        }
        return new RegisterPart(ALL);
    }

    boolean isWhole() {
        return mask == ALL;
    }

    /** Whether the two have bits in common, and each some that the other has not. */
    boolean disagreesWith(RegisterPart other) {
        int common = mask & other.mask;
        return common != 0 && common != mask && common != other.mask;
    }
}
