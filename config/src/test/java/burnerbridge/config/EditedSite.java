package burnerbridge.config;

import burnerbridge.config.binding.BindingChoices;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.TreeMap;

/**
 * A site that a restless integrator edits, and which point each row is whatever it is called: an identity is
 * given once, follows its point through every rename, and rises again with a name that nobody has taken.
 * Knows nothing of how bindings are kept.
 */
final class EditedSite {
    /** What a row becomes on BACnet. */
    enum Shape {
        NUMBER,
        BIT,
        STATES,
        HIDDEN
    }

    /** A row of a list. */
    static final class Point {
        final int identity;
        String name;
        int wire;
        Shape shape;
        Map<Long, String> states = new LinkedHashMap<>();
        /** What it was called when it was bound last; empty before. */
        String boundName = "";
        /** From where, and as what, it was bound last. */
        String boundAs = "";

        Point(int identity, String name, int wire, Shape shape) {
            this.identity = identity;
            this.name = name;
            this.wire = wire;
            this.shape = shape;
        }

        private String as() {
            return wire + "/" + shape;
        }
    }

    /** A type of controller. */
    static final class Type {
        String name;
        String boundName = "";
        final List<Point> points = new ArrayList<>();
        final Map<String, Integer> buried = new TreeMap<>();

        Type(String name) {
            this.name = name;
        }
    }

    /** A controller, whose base nobody changes. */
    record Controller(int identity, Type type, int base) {}

    final List<Type> types = new ArrayList<>();
    final List<Controller> controllers = new ArrayList<>();
    int edits;

    private final Random random;
    private final Set<Point> touched = new HashSet<>();
    private final Set<String> fresh = new HashSet<>();
    private final Set<Integer> deletedNow = new HashSet<>();
    private boolean exchanged;
    private int identities;
    private int wires;
    private int names;

    EditedSite(Random random) {
        this.random = random;
        for (int t = 0; t < 2; t++) {
            Type type = new Type("kind-" + (char) ('a' + t));
            types.add(type);
            for (int p = 0; p < 5; p++) {
                add(type);
            }
            controllers.add(new Controller(t, type, 10_000 * (t + 1)));
        }
    }

    /** One random edit. */
    void edit() {
        edits++;
        Type type = pick(types);
        switch (random.nextInt(16)) {
            case 0, 1, 2 -> add(type);
            case 3, 4 -> delete(type);
            case 5, 6 -> rename(type);
            case 7 -> exchangeNames(type);
            case 8 -> Collections.shuffle(type.points, random);
            case 9 -> pick(type.points).shape = pick(List.of(Shape.values()));
            case 10 -> pick(type.points).wire = nextWire();
            case 11 -> addController(type);
            case 12 -> renameType(type);
            default -> editStates(pick(type.points));
        }
    }

    private <T> T pick(List<T> of) {
        return of.get(random.nextInt(of.size()));
    }

    private int nextWire() {
        return wires++ * 2;
    }

    private void add(Type type) {
        List<String> free = type.buried.keySet().stream()
                .filter(name -> isUnused(type, name))
                .toList();
        String name = !free.isEmpty() && random.nextBoolean() ? pick(free) : "point-" + names++;
        Integer risen = type.buried.remove(name);
        Point point = new Point(
                risen == null ? identities++ : risen,
                name,
                nextWire(),
                random.nextInt(3) == 0 ? Shape.STATES : pick(List.of(Shape.values())));
        if (risen != null) {
            point.boundName = name;
        } else if (!type.points.isEmpty() && random.nextInt(4) == 0) {
            takeThePlaceOfADeletedOne(type, point);
        }
        for (int i = 0; i < 1 + random.nextInt(4); i++) {
            editStates(point);
        }
        touched.add(point);
        type.points.add(random.nextInt(type.points.size() + 1), point);
    }

    /** Another point on the same register: it looks like a rename, and is stated to be none. */
    private void takeThePlaceOfADeletedOne(Type type, Point point) {
        Point before = pick(type.points);
        if (delete(type, before)) {
            point.wire = before.wire;
            point.shape = before.shape;
            fresh.add(type.points.size() + "/" + point.name);
        }
    }

    private static boolean isUnused(Type type, String name) {
        return type.points.stream().noneMatch(p -> p.name.equals(name) || p.boundName.equals(name));
    }

    private void delete(Type type) {
        delete(type, pick(type.points));
    }

    private boolean delete(Type type, Point point) {
        if (type.points.size() < 4 || !touched.add(point)) {
            return false;
        }
        type.points.remove(point);
        if (isBound(point)) {
            type.buried.put(point.name, point.identity);
            deletedNow.add(point.identity);
        }
        return true;
    }

    private void rename(Type type) {
        Point point = pick(type.points);
        List<String> graves = type.buried.keySet().stream()
                .filter(name -> isUnused(type, name))
                .toList();
        String name = !graves.isEmpty() && random.nextInt(3) == 0 ? pick(graves) : "point-" + names++;
        if (isBound(point) && touched.add(point)) {
            point.name = name;
            // Whoever takes the name of one deleted a moment ago has to say so, as after an exchange.
            exchanged |= deletedNow.contains(type.buried.remove(name));
        }
    }

    private void exchangeNames(Type type) {
        Point one = pick(type.points);
        Point other = pick(type.points);
        if (one != other && isBound(one) && isBound(other) && !touched.contains(one) && touched.add(other)) {
            touched.add(one);
            String name = one.name;
            one.name = other.name;
            other.name = name;
            exchanged = true;
        }
    }

    private static boolean isBound(Point point) {
        return !point.boundName.isEmpty();
    }

    private void addController(Type type) {
        if (controllers.size() < 6) {
            controllers.add(new Controller(controllers.size(), type, 10_000 * (controllers.size() + 1)));
        }
    }

    private void renameType(Type type) {
        if (type.name.equals(type.boundName)) {
            type.name = "kind-" + names++;
        }
    }

    private void editStates(Point point) {
        List<Long> numbers = new ArrayList<>(point.states.keySet());
        switch (random.nextInt(4)) {
            case 0 -> point.states.keySet().removeAll(numbers.stream().limit(1).toList());
            case 1 -> numbers.stream().limit(2).forEach(n -> point.states.put(n, "text " + random.nextInt(99)));
            default -> {
                Map<Long, String> before = new LinkedHashMap<>(point.states);
                point.states.clear();
                if (random.nextBoolean()) {
                    before.forEach(point.states::put);
                }
                point.states.put((long) random.nextInt(12), "state " + random.nextInt(99));
                before.forEach(point.states::putIfAbsent);
            }
        }
        if (point.states.isEmpty()) {
            point.states.put(0L, "off");
        }
    }

    /**
     * Whether somebody who does not say what was renamed can be expected to be asked: no names were exchanged,
     * and what has another name is still read from where it was.
     */
    boolean mayStaySilent() {
        return !exchanged
                && types.stream()
                        .flatMap(type -> type.points.stream())
                        .allMatch(point -> point.name.equals(point.boundName)
                                || !isBound(point)
                                || point.as().equals(point.boundAs));
    }

    /** What the person says about it. */
    BindingChoices choices() {
        Map<String, String> renamed = new LinkedHashMap<>();
        Set<String> stated = new HashSet<>();
        for (Type type : types) {
            boolean retyped = !type.boundName.isEmpty() && !type.boundName.equals(type.name);
            if (retyped) {
                renamed.put(type.boundName, type.name);
            }
            for (Point point : type.points) {
                if (isBound(point) && !point.boundName.equals(point.name)) {
                    renamed.put(
                            (retyped ? type.boundName : type.name) + "." + point.boundName,
                            (retyped ? type.boundName : type.name) + "." + point.name);
                }
                if (fresh.stream().anyMatch(f -> f.endsWith("/" + point.name))) {
                    stated.add(type.name + "." + point.name);
                }
            }
        }
        return new BindingChoices(renamed, stated);
    }

    /** All is bound by the names that it has now. */
    void bound(Set<Integer> identitiesWithBindings) {
        touched.clear();
        deletedNow.clear();
        fresh.clear();
        exchanged = false;
        for (Type type : types) {
            type.boundName = type.name;
            type.points.stream()
                    .filter(point -> identitiesWithBindings.contains(point.identity))
                    .forEach(point -> {
                        point.boundName = point.name;
                        point.boundAs = point.as();
                    });
        }
    }

    String yaml() {
        StringBuilder text = new StringBuilder(SiteFiles.SITE.substring(0, SiteFiles.SITE.indexOf("types:")));
        text.append("types:\n");
        types.forEach(
                type -> text.append("  " + type.name + ": {points: points/" + file(type) + ", numbering: wire}\n"));
        text.append("controllers:\n");
        controllers.forEach(c -> text.append("  boiler-" + c.identity() + ": {line: annex, unit: " + (c.identity() + 1)
                + ", type: " + c.type().name + ", instance-base: " + c.base() + "}\n"));
        return text + "bacnet: {device-instance: 711001, bind: 127.0.0.1}\n";
    }

    String file(Type type) {
        return types.indexOf(type) + ".csv";
    }

    String list(Type type) {
        StringBuilder text = new StringBuilder("name,table,address,format,role,states,object\n");
        for (Point point : type.points) {
            String states = point.shape == Shape.STATES ? statesCell(point.states) : "";
            text.append(point.name + ",holding-register," + point.wire + ","
                    + (point.shape == Shape.BIT ? "bit:3" : "uint16") + ",status," + states + ","
                    + (point.shape == Shape.HIDDEN ? "none" : "") + "\n");
        }
        return text.toString();
    }

    private static String statesCell(Map<Long, String> states) {
        StringBuilder cell = new StringBuilder();
        states.forEach((number, text) -> cell.append(cell.isEmpty() ? "" : "|").append(number + "=" + text));
        return cell.toString();
    }
}
