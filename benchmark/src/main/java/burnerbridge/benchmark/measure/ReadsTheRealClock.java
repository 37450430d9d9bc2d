package burnerbridge.benchmark.measure;

import java.lang.annotation.ElementType;
import java.lang.annotation.Retention;
import java.lang.annotation.RetentionPolicy;
import java.lang.annotation.Target;

/** Marks the one place that may read the machine's clocks. */
@Retention(RetentionPolicy.CLASS)
@Target(ElementType.TYPE)
@interface ReadsTheRealClock {}
