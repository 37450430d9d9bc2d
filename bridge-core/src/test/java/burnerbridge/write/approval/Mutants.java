package burnerbridge.write.approval;

import burnerbridge.site.Bindings;
import burnerbridge.site.Name;
import burnerbridge.site.unit.Unit;
import java.lang.reflect.Constructor;
import java.lang.reflect.InvocationTargetException;
import java.lang.reflect.ParameterizedType;
import java.lang.reflect.RecordComponent;
import java.lang.reflect.Type;
import java.math.BigDecimal;
import java.net.URI;
import java.nio.file.Path;
import java.time.Duration;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.OptionalLong;
import java.util.Set;

/** All values that differ from one in one place, found by looking into its records. */
final class Mutants {
    private Mutants() {}

    /**
     * A value that differs in one place.
     *
     * @param path the components that lead there, outermost first: {@code Scaling.decimals}
     */
    record Mutant(Object value, List<String> path) {
        private Mutant within(String component, Object whole) {
            List<String> longer = new ArrayList<>(List.of(component));
            longer.addAll(path);
            return new Mutant(whole, longer);
        }

        private Mutant as(Object whole) {
            return new Mutant(whole, path);
        }
    }

    static String name(Class<?> record, RecordComponent component) {
        String whole = record.getName();
        return whole.substring(whole.lastIndexOf('.') + 1) + "." + component.getName();
    }

    static List<Mutant> of(Object value) {
        if (value instanceof Record record) {
            return ofRecord(record);
        }
        if (value instanceof Bindings bindings) {
            return of(bindings.entries()).stream()
                    .map(m -> m.as(new Bindings(((List<?>) m.value())
                            .stream().map(Bindings.Binding.class::cast).toList())))
                    .toList();
        }
        if (value instanceof Optional<?> optional) {
            return ofOptional(optional);
        }
        if (value instanceof List<?> list) {
            return ofList(list);
        }
        if (value instanceof Set<?> set) {
            return ofSet(set);
        }
        if (value instanceof Map<?, ?> map) {
            return ofMap(map);
        }
        return leaves(value).stream()
                .filter(leaf -> !leaf.equals(value))
                .map(leaf -> new Mutant(leaf, List.of()))
                .toList();
    }

    private static List<Object> leaves(Object value) {
        if (value instanceof Boolean flag) {
            return List.of(!flag);
        }
        if (value instanceof Integer number) {
            return List.of(number + 1, number - 1, number * 2, number + 256);
        }
        if (value instanceof Long number) {
            return List.of(number + 1);
        }
        if (value instanceof String text) {
            // An address with a letter behind it is none.
            return text.matches("[0-9.]+") ? List.of(text + "x", text + "1") : List.of(text + "x");
        }
        if (value instanceof BigDecimal number) {
            return List.of(number.add(BigDecimal.ONE), number.subtract(BigDecimal.ONE));
        }
        if (value instanceof Duration time) {
            return List.of(time.plusSeconds(1), time.plusMillis(1));
        }
        if (value instanceof OptionalInt number) {
            OptionalInt more = OptionalInt.of(number.orElse(0) + 1);
            return number.isEmpty() ? List.of(more) : List.of(more, OptionalInt.empty());
        }
        if (value instanceof OptionalLong number) {
            OptionalLong more = OptionalLong.of(number.orElse(1) + 1);
            return number.isEmpty() ? List.of(more) : List.of(more, OptionalLong.empty());
        }
        if (value instanceof URI uri) {
            return List.of(URI.create(uri + "1"), URI.create(uri.toString().replace("://", "://x.")));
        }
        if (value instanceof Path path) {
            return List.of(path.resolve("x"));
        }
        if (value instanceof ZoneId) {
            return List.of(ZoneId.of("Etc/UTC"));
        }
        if (value instanceof Unit) {
            return List.of(Unit.of("bar"), Unit.NONE);
        }
        if (value instanceof Enum<?> constant) {
            List<Object> others =
                    new ArrayList<>(Arrays.asList(constant.getDeclaringClass().getEnumConstants()));
            others.remove(constant);
            return others;
        }
        throw new IllegalArgumentException("this test does not know how to change a " + value.getClass());
    }

    private static List<Mutant> ofOptional(Optional<?> optional) {
        if (optional.isEmpty()) {
            return List.of();
        }
        List<Mutant> mutants = new ArrayList<>(List.of(new Mutant(Optional.empty(), List.of())));
        of(optional.get()).forEach(m -> mutants.add(m.as(Optional.of(m.value()))));
        return mutants;
    }

    private static List<Mutant> ofList(List<?> list) {
        List<Mutant> mutants = new ArrayList<>();
        for (int i = 0; i < list.size(); i++) {
            for (Mutant m : of(list.get(i))) {
                List<Object> other = new ArrayList<>(list);
                other.set(i, m.value());
                mutants.add(m.as(other));
            }
        }
        if (!list.isEmpty()) {
            mutants.add(new Mutant(new ArrayList<>(list.subList(1, list.size())), List.of()));
        }
        return mutants;
    }

    private static List<Mutant> ofSet(Set<?> set) {
        List<Mutant> mutants = new ArrayList<>();
        for (Object element : set) {
            for (Mutant m : of(element)) {
                Set<Object> other = new LinkedHashSet<>(set);
                other.remove(element);
                if (other.add(m.value())) {
                    mutants.add(m.as(other));
                }
            }
        }
        return mutants;
    }

    private static List<Mutant> ofMap(Map<?, ?> map) {
        List<Mutant> mutants = new ArrayList<>();
        map.forEach((key, value) -> {
            for (Mutant m : of(value)) {
                Map<Object, Object> other = new LinkedHashMap<>(map);
                other.put(key, m.value());
                mutants.add(m.as(other).within("value", other));
            }
            for (Mutant m : of(key)) {
                Map<Object, Object> other = new LinkedHashMap<>(map);
                other.remove(key);
                if (other.put(m.value(), value) == null) {
                    mutants.add(m.as(other));
                }
            }
        });
        return mutants;
    }

    private static List<Mutant> ofRecord(Record record) {
        List<Mutant> mutants = new ArrayList<>();
        RecordComponent[] components = record.getClass().getRecordComponents();
        Object[] values = values(record, components);
        for (int i = 0; i < components.length; i++) {
            // A name is one thing, and a short one.
            List<Mutant> of =
                    record instanceof Name name ? List.of(new Mutant(name.text() + "x", List.of())) : of(values[i]);
            for (Mutant m : of) {
                Object[] others = values.clone();
                others[i] = m.value();
                int at = i;
                made(record.getClass(), components, others)
                        .ifPresent(whole -> mutants.add(m.within(name(record.getClass(), components[at]), whole)));
            }
        }
        return mutants;
    }

    private static Object[] values(Record record, RecordComponent[] components) {
        Object[] values = new Object[components.length];
        try {
            for (int i = 0; i < components.length; i++) {
                components[i].getAccessor().setAccessible(true);
                values[i] = components[i].getAccessor().invoke(record);
            }
            return values;
        } catch (ReflectiveOperationException e) {
            throw new IllegalStateException(e);
        }
    }

    /** Empty where the record refuses such values. */
    private static Optional<Object> made(Class<?> type, RecordComponent[] components, Object[] values) {
        try {
            Constructor<?> constructor = type.getDeclaredConstructor(
                    Arrays.stream(components).map(RecordComponent::getType).toArray(Class<?>[]::new));
            constructor.setAccessible(true);
            return Optional.of(constructor.newInstance(values));
        } catch (InvocationTargetException e) {
            if (e.getCause() instanceof IllegalArgumentException) {
                return Optional.empty();
            }
            throw new IllegalStateException(e);
        } catch (ReflectiveOperationException e) {
            throw new IllegalStateException(e);
        }
    }

    /** Every component of every record that can be reached from a type, through lists, maps and sealed interfaces. */
    static Set<String> reachableFrom(Class<?> type) {
        Set<String> components = new LinkedHashSet<>();
        reach(type, components, new LinkedHashSet<>());
        return components;
    }

    private static void reach(Type type, Set<String> components, Set<Type> seen) {
        if (type instanceof ParameterizedType generic) {
            for (Type argument : generic.getActualTypeArguments()) {
                reach(argument, components, seen);
            }
            return;
        }
        if (!(type instanceof Class<?> of) || !seen.add(of)) {
            return;
        }
        if (of == Bindings.class) {
            reach(Bindings.Binding.class, components, seen);
        }
        if (of.isSealed()) {
            for (Class<?> permitted : of.getPermittedSubclasses()) {
                reach(permitted, components, seen);
            }
        }
        if (of.isRecord()) {
            for (RecordComponent component : of.getRecordComponents()) {
                components.add(name(of, component));
                reach(component.getGenericType(), components, seen);
            }
        }
    }
}
