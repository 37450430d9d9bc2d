package burnerbridge.benchmark.transactions;

import java.util.ArrayList;
import java.util.List;

/** Lets sides read in turn: one round each, the next round each, so that what disturbs one disturbs all. */
final class Contest {
    private final int warmRounds;
    private final int rounds;

    /** @param warmRounds come first and are not looked at: by them a virtual machine compiles its code */
    Contest(int warmRounds, int rounds) {
        this.warmRounds = warmRounds;
        this.rounds = rounds;
    }

    /** The rounds of each side, in the order of the sides. A side alone stays connected throughout. */
    List<Rounds> between(List<Side> sides, Asked asked) {
        List<List<Round>> read = new ArrayList<>();
        sides.forEach(side -> read.add(new ArrayList<>()));
        for (int round = -warmRounds; round < rounds; round++) {
            for (int i = 0; i < sides.size(); i++) {
                Round one = turn(sides.get(i), asked, sides.size() > 1);
                if (round >= 0) {
                    read.get(i).add(one);
                }
            }
        }
        return read.stream().map(Rounds::new).toList();
    }

    private static Round turn(Side side, Asked asked, boolean leaves) {
        Round round = side.read(asked);
        if (leaves) {
            side.disconnect();
        }
        return round;
    }
}
