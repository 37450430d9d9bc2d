package burnerbridge.write;

import burnerbridge.model.Registers;
import burnerbridge.write.ask.Decision;
import java.math.BigDecimal;

/** What became of a ticket. */
sealed interface Result {

    /** Its registers hold what was asked for. */
    record Written(Registers registers, BigDecimal value) implements Result {}

    /** It left, and its registers hold something else. */
    record NotTaken(Registers registers, String holds, String why) implements Result {}

    /** The controller answered with an exception. */
    record RefusedByController(int code) implements Result {}

    /** It may have left, and its registers cannot be read. */
    record Unknown(String why) implements Result {}

    /** It did not leave: a question was answered with no. */
    record Withheld(Decision.Refused refusal) implements Result {}

    /** It did not leave: there is no connection. */
    record NotSent(String why) implements Result {}
}
