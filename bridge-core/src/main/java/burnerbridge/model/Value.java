package burnerbridge.model;

/** A decoded value: one of a closed set of kinds, each exact. */
public sealed interface Value permits IntegerValue, RealValue, StateValue, BitValue, TextValue, DateTimeValue {

    /** The value as people read it, without its unit. */
    String text();
}
