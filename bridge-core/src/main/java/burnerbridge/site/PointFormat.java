package burnerbridge.site;

/** How the registers of a point are to be understood. */
public sealed interface PointFormat {

    /** How many addresses of its table a point of this format takes. */
    int width();

    /** The word used in the point list. */
    String word();

    /** A coil or discrete input. */
    record Bit() implements PointFormat {
        @Override
        public int width() {
            return 1;
        }

        @Override
        public String word() {
            return "bit";
        }
    }

    /**
     * One bit of a 16-bit register.
     *
     * @param index 0 for the least significant bit to 15, whatever number the manual gives it
     * @param written the bit's number as the point list has it, counted from the type's first bit
     */
    record RegisterBit(int index, int written) implements PointFormat {
        public RegisterBit {
            if (index < 0 || index > 15) {
                throw new IllegalArgumentException("a register has bits 0 to 15 (was " + index + ")");
            }
        }

        @Override
        public int width() {
            return 1;
        }

        @Override
        public String word() {
            return "bit:" + written;
        }
    }

    /** One register as 0 to 65535. */
    record Uint16() implements PointFormat {
        @Override
        public int width() {
            return 1;
        }

        @Override
        public String word() {
            return "uint16";
        }
    }

    /** One register as -32768 to 32767. */
    record Int16() implements PointFormat {
        @Override
        public int width() {
            return 1;
        }

        @Override
        public String word() {
            return "int16";
        }
    }

    /** Two registers as IEEE 754 binary32. */
    record Float32(WordOrder order) implements PointFormat {
        @Override
        public int width() {
            return 2;
        }

        @Override
        public String word() {
            return "float32";
        }
    }
}
