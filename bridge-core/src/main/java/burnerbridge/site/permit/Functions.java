package burnerbridge.site.permit;

import java.util.Set;
import java.util.TreeSet;

/** The functions that may ever write (Modbus Application Protocol V1.1b3, 6.5, 6.6, 6.11, 6.12, 6.16). */
public final class Functions {
    public static final int SINGLE_COIL = 5;
    public static final int SINGLE_REGISTER = 6;
    public static final int COILS = 15;
    public static final int REGISTERS = 16;
    public static final int MASK = 22;

    /** In rising order. */
    public static final Set<Integer> ALL = new TreeSet<>(Set.of(SINGLE_COIL, SINGLE_REGISTER, COILS, REGISTERS, MASK));

    private Functions() {}
}
