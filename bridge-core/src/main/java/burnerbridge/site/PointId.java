package burnerbridge.site;

/** One point of one controller, unique within the site. Written {@code boiler-1.flue-temperature}. */
public record PointId(Name controller, Name point) {

    @Override
    public String toString() {
        return controller + "." + point;
    }
}
