package burnerbridge.config.yaml;

import burnerbridge.config.problem.Problems;
import burnerbridge.config.problem.Problems.Place;
import burnerbridge.config.problem.Unreadable;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.CharBuffer;
import java.nio.charset.CharsetDecoder;
import java.nio.charset.CoderResult;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.Optional;
import org.snakeyaml.engine.v2.api.LoadSettings;
import org.snakeyaml.engine.v2.api.lowlevel.Compose;
import org.snakeyaml.engine.v2.api.lowlevel.Parse;
import org.snakeyaml.engine.v2.events.CollectionEndEvent;
import org.snakeyaml.engine.v2.events.CollectionStartEvent;
import org.snakeyaml.engine.v2.events.Event;
import org.snakeyaml.engine.v2.exceptions.Mark;
import org.snakeyaml.engine.v2.exceptions.MarkedYamlEngineException;
import org.snakeyaml.engine.v2.exceptions.YamlEngineException;
import org.snakeyaml.engine.v2.nodes.MappingNode;
import org.snakeyaml.engine.v2.nodes.Node;
import org.snakeyaml.engine.v2.scanner.StreamReader;

/** Reads a YAML file into its top mapping. */
public final class YamlFile {
    private static final long LARGEST = 2 << 20;
    /** A site needs six; the library's stack is as deep as the file. */
    private static final int DEEPEST = 20;

    private final String file;
    private final Problems problems;
    private final LoadSettings settings;

    private YamlFile(String file, Problems problems) {
        this.file = file;
        this.problems = problems;
        this.settings = LoadSettings.builder()
                .setLabel(file)
                // Told like every other key that is no word, with its place.
                .setAllowNonScalarKeys(true)
                .build();
    }

    public static Optional<YamlMap> read(Path folder, String file, Problems problems) {
        YamlFile reader = new YamlFile(file, problems);
        return reader.text(folder).flatMap(reader::top);
    }

    private Optional<String> text(Path folder) {
        Path path = folder.resolve(file);
        try {
            if (Files.size(path) > LARGEST) {
                problems.error(
                        Place.wholeFile(file), "is larger than " + (LARGEST >> 20) + " MiB, which no site needs");
                return Optional.empty();
            }
            return decoded(Files.readAllBytes(path)).filter(this::isText);
        } catch (NoSuchFileException e) {
            problems.error(Place.wholeFile(file), "is missing in " + folder);
        } catch (IOException e) {
            problems.error(Place.wholeFile(file), Unreadable.why(e));
        }
        return Optional.empty();
    }

    private Optional<String> decoded(byte[] bytes) {
        CharsetDecoder decoder = StandardCharsets.UTF_8.newDecoder();
        CharBuffer text = CharBuffer.allocate(bytes.length + 1);
        CoderResult result = decoder.decode(ByteBuffer.wrap(bytes), text, true);
        text.flip();
        if (result.isError()) {
            problems.error(placeAfter(text.toString()), "is not UTF-8");
            return Optional.empty();
        }
        return Optional.of(text.toString());
    }

    /** YAML 1.2.2, 5.1: control characters other than tabs and line ends are no part of it. */
    private boolean isText(String text) {
        for (int i = 0; i < text.length(); i = text.offsetByCodePoints(i, 1)) {
            int c = text.codePointAt(i);
            if (!StreamReader.isPrintable(c) && c != 0xFEFF) {
                problems.error(
                        placeAfter(text.substring(0, i)),
                        "is not YAML: holds a character that no text has, number " + Integer.toHexString(c));
                return false;
            }
        }
        return true;
    }

    private Place placeAfter(String before) {
        int line = (int) before.chars().filter(c -> c == '\n').count() + 1;
        int start = before.lastIndexOf('\n') + 1;
        return new Place(file, line, before.codePointCount(start, before.length()) + 1);
    }

    private Optional<YamlMap> top(String text) {
        try {
            if (isTooDeep(text)) {
                return Optional.empty();
            }
            Optional<Node> top = new Compose(settings).composeString(text);
            if (top.isPresent() && top.get() instanceof MappingNode mapping) {
                return Optional.of(new YamlMap(file, "", mapping, problems));
            }
            problems.error(Place.wholeFile(file), "must hold keys and values, such as 'site: quillmere'");
        } catch (MarkedYamlEngineException e) {
            problems.error(placeOf(e.getProblemMark()), "is not YAML: " + e.getProblem());
        } catch (YamlEngineException e) {
            problems.error(Place.wholeFile(file), "is not YAML: " + e.getMessage());
        }
        return Optional.empty();
    }

    private boolean isTooDeep(String text) {
        int depth = 0;
        for (Event event : new Parse(settings).parseString(text)) {
            depth += event instanceof CollectionStartEvent ? 1 : event instanceof CollectionEndEvent ? -1 : 0;
            if (depth > DEEPEST) {
                problems.error(
                        placeOf(event.getStartMark()),
                        "is nested more than " + DEEPEST
                                + " deep, which nothing here is; a bracket is probably missing");
                return true;
            }
        }
        return false;
    }

    private Place placeOf(Optional<Mark> where) {
        return where.map(mark -> new Place(file, mark.getLine() + 1, mark.getColumn() + 1))
                .orElse(Place.wholeFile(file));
    }
}
