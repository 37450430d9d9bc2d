package burnerbridge.site;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.LinkedHashMap;
import java.util.Map;
import org.junit.jupiter.api.Test;

class StateNumbersTest {

    /** {@code 4=firing, 0=standby} as an ordered list. */
    private static States states(Object... numbersAndTexts) {
        Map<Long, String> texts = new LinkedHashMap<>();
        for (int i = 0; i < numbersAndTexts.length; i += 2) {
            texts.put(((Integer) numbersAndTexts[i]).longValue(), (String) numbersAndTexts[i + 1]);
        }
        return new States(texts);
    }

    @Test
    void theyBeginAtOneInTheOrderOfTheList() {
        StateNumbers numbers = StateNumbers.inOrderOf(states(4, "firing", 0, "standby"));
        assertThat(numbers.of(4)).hasValue(1);
        assertThat(numbers.of(0)).hasValue(2);
        assertThat(numbers.of(3)).isEmpty();
        assertThat(numbers.count()).isEqualTo(2);
        assertThat(numbers.texts(states(4, "firing", 0, "standby"))).containsExactly("firing", "standby");
    }

    @Test
    void anInsertedStateMovesNoOtherAndARemovedOneKeepsItsPlace() {
        StateNumbers numbers = StateNumbers.inOrderOf(states(0, "standby", 1, "purge", 7, "firing"));
        States changed = states(9, "lockout", 7, "burning", 0, "standby");
        assertThat(numbers.missing(changed)).containsExactly(9L);
        StateNumbers after = numbers.with(changed);
        assertThat(after.texts(changed)).containsExactly("standby", "not used (1)", "burning", "lockout");
        assertThat(after.with(states(1, "purge")).of(1)).hasValue(2);
    }

    @Test
    void aNumberThatNobodyHasIsNotUsed() {
        StateNumbers numbers = new StateNumbers(Map.of(5L, 3));
        assertThat(numbers.texts(states(5, "run"))).containsExactly("not used", "not used", "run");
        assertThat(numbers.with(states(6, "stop")).of(6)).hasValue(4);
    }

    @Test
    void numbersThatNoObjectCanHaveAreRefused() {
        assertThatThrownBy(() -> new StateNumbers(Map.of(1L, 0))).hasMessageContaining("1 to 2000");
        assertThatThrownBy(() -> new StateNumbers(Map.of(1L, 2001))).hasMessageContaining("1 to 2000");
        assertThatThrownBy(() -> new StateNumbers(Map.of(1L, 2, 2L, 2))).hasMessageContaining("two states");
        assertThat(new StateNumbers(Map.of(1L, 2000)).missing(states(1, "a", 2, "b")))
                .containsExactly(2L);
        assertThat(new StateNumbers(Map.of(1L, 2000))
                        .with(states(1, "a", 2, "b"))
                        .of(2))
                .isEmpty();
    }
}
