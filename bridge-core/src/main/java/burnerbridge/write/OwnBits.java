package burnerbridge.write;

import burnerbridge.model.Registers;
import burnerbridge.site.guard.Place;

/** What of registers belongs to a permitted point: all of them, or for some bits of a register only those. */
final class OwnBits {
    private OwnBits() {}

    static Registers of(Permitted permitted, Registers read) {
        Place place = Place.readBy(permitted.point().definition()).get(0);
        int[] words = new int[read.count()];
        for (int i = 0; i < words.length; i++) {
            words[i] = read.word(i) & place.mask();
        }
        return Registers.of(words);
    }
}
