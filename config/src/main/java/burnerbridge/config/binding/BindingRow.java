package burnerbridge.config.binding;

import burnerbridge.config.problem.Problems.Place;
import burnerbridge.site.Bindings.Binding;
import burnerbridge.site.Name;
import burnerbridge.site.ObjectKind;
import burnerbridge.site.StateNumbers;
import java.util.ArrayList;
import java.util.List;

/**
 * A row of {@code bindings.csv}.
 *
 * @param at where the point was read from when it was bound last, to recognise it under another name; empty
 *     where that is not known
 * @param was names that it had before, the newest last; with the type in front where that had another name
 * @param place of the row; line 0 where it is not in the file yet
 */
public record BindingRow(Binding binding, String at, List<String> was, Gone gone, Place place) {

    /** Whether the row still stands for a point. */
    enum Gone {
        /** It does. */
        NO(""),
        /** The point is in no list; it has its object again when it comes back under its name. */
        YES("yes"),
        /** Another point has its name by now, so it cannot come back. */
        FOR_GOOD("for-good");

        private final String word;

        Gone(String word) {
            this.word = word;
        }

        String word() {
            return word;
        }
    }

    public BindingRow {
        was = List.copyOf(was);
    }

    static BindingRow fresh(Binding binding, String at) {
        return new BindingRow(binding, at, List.of(), Gone.NO, Place.wholeFile(BindingsFile.NAME));
    }

    Name type() {
        return binding.type();
    }

    Name point() {
        return binding.point();
    }

    ObjectKind object() {
        return binding.object();
    }

    int offset() {
        return binding.offset();
    }

    StateNumbers states() {
        return binding.states();
    }

    public boolean isLive() {
        return gone == Gone.NO;
    }

    boolean isOf(Name type, Name point) {
        return binding.type().equals(type) && binding.point().equals(point);
    }

    /** {@code hot-water.oxygen}. */
    String id() {
        return type() + "." + point();
    }

    /** {@code analog-input offset 5}. */
    String objectText() {
        return object().word() + " offset " + offset();
    }

    BindingRow withGone(Gone other) {
        return new BindingRow(binding, at, was, other, place);
    }

    BindingRow withAt(String other) {
        return new BindingRow(binding, other, was, gone, place);
    }

    BindingRow withStates(StateNumbers states) {
        return new BindingRow(new Binding(type(), point(), object(), offset(), states), at, was, gone, place);
    }

    /** The same under another name, with what it was called so far. */
    BindingRow named(Name newType, Name newPoint) {
        List<String> names = new ArrayList<>(was);
        names.add(newType.equals(type()) ? point().text() : id());
        return new BindingRow(new Binding(newType, newPoint, object(), offset(), states()), at, names, gone, place);
    }
}
