package burnerbridge.values;

import burnerbridge.site.SitePoint;
import java.util.List;
import java.util.Locale;
import java.util.regex.Pattern;

/**
 * Chooses points by name: {@code CONTROLLER} or {@code CONTROLLER.POINT}, in which {@code *} stands for any
 * characters and {@code ?} for one. Without any all are chosen, otherwise those that one of them fits.
 */
final class PointFilter {
    private static final Pattern FORM = Pattern.compile("[a-z0-9*?-]{1,80}(\\.[a-z0-9*?-]{1,80})?");
    private static final int MOST = 100;

    private final List<Choice> choices;

    private record Choice(Glob controller, Glob point) {
        boolean fits(SitePoint candidate) {
            return controller.matches(candidate.controller().name().text())
                    && point.matches(candidate.definition().name().text());
        }
    }

    /** @throws IllegalArgumentException with words for people, where one of them has another form */
    PointFilter(List<String> written) {
        if (written.size() > MOST) {
            throw new IllegalArgumentException("at most " + MOST + " choices of points (was " + written.size() + ")");
        }
        choices = written.stream().map(PointFilter::choice).toList();
    }

    private static Choice choice(String written) {
        String lower = written.toLowerCase(Locale.ROOT);
        if (!FORM.matcher(lower).matches()) {
            throw new IllegalArgumentException("points are chosen as CONTROLLER or CONTROLLER.POINT, with * and ? for"
                    + " what may be anything, like boiler-1 or '*.flue-*' (was '" + written + "')");
        }
        String[] parts = lower.split("\\.", 2);
        return new Choice(new Glob(parts[0]), new Glob(parts.length > 1 ? parts[1] : "*"));
    }

    boolean chooses(SitePoint point) {
        return choices.isEmpty() || choices.stream().anyMatch(choice -> choice.fits(point));
    }
}
