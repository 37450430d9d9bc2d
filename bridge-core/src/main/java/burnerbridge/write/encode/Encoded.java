package burnerbridge.write.encode;

import burnerbridge.model.Registers;
import java.math.BigDecimal;

/**
 * What an ask comes to in the registers.
 *
 * @param registers whole registers, or a word of 0 or 1 of a coil; of a value that is some bits of a register only
 *     those bits, all others 0
 * @param value what these registers say, which is the value asked for but for less than a step
 */
public record Encoded(Registers registers, BigDecimal value) {}
