package burnerbridge.write;

import burnerbridge.model.Registers;
import burnerbridge.write.ask.Decision;
import java.math.BigDecimal;

/** What became of a ticket. */
sealed interface Result {

    /** For people, and for the audit: {@code not-taken}. */
    String code();

    /**
     * What became of it, for people.
     *
     * @param wanted what was to be written
     */
    String sentence(String wanted);

    /** Its registers hold what was asked for. */
    record Written(Registers registers, BigDecimal value) implements Result {
        @Override
        public String code() {
            return "written";
        }

        @Override
        public String sentence(String wanted) {
            return wanted + " was written";
        }
    }

    /** It left, and its registers hold something else. */
    record NotTaken(Registers registers, String holds, String why) implements Result {
        @Override
        public String code() {
            return "not-taken";
        }

        @Override
        public String sentence(String wanted) {
            return why + ", and its registers hold " + holds + " instead of " + wanted;
        }
    }

    /** The controller answered with an exception. */
    record RefusedByController(int exception) implements Result {
        @Override
        public String code() {
            return "refused-by-controller";
        }

        @Override
        public String sentence(String wanted) {
            return "the controller refused to take " + wanted + " with exception " + exception;
        }
    }

    /** It may have left, and its registers cannot be read. */
    record Unknown(String why) implements Result {
        @Override
        public String code() {
            return "unknown";
        }

        @Override
        public String sentence(String wanted) {
            return "whether " + wanted + " was written is not known: " + why;
        }
    }

    /** It did not leave: a question was answered with no. */
    record Withheld(Decision.Refused refusal) implements Result {
        @Override
        public String code() {
            return "not-sent";
        }

        @Override
        public String sentence(String wanted) {
            return refusal.sentence();
        }
    }

    /** It did not leave: there is no connection. */
    record NotSent(String why) implements Result {
        @Override
        public String code() {
            return "not-sent";
        }

        @Override
        public String sentence(String wanted) {
            return why;
        }
    }
}
