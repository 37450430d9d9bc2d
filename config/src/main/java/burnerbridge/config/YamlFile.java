package burnerbridge.config;

import burnerbridge.config.Problems.Place;
import java.io.IOException;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.Optional;
import org.snakeyaml.engine.v2.api.LoadSettings;
import org.snakeyaml.engine.v2.api.lowlevel.Compose;
import org.snakeyaml.engine.v2.exceptions.MarkedYamlEngineException;
import org.snakeyaml.engine.v2.exceptions.YamlEngineException;
import org.snakeyaml.engine.v2.nodes.MappingNode;
import org.snakeyaml.engine.v2.nodes.Node;

/** Reads a YAML file into its top mapping. */
final class YamlFile {
    private static final long LARGEST = 2 << 20;

    private YamlFile() {}

    static Optional<YamlMap> read(Path folder, String file, Problems problems) {
        try {
            if (Files.size(folder.resolve(file)) > LARGEST) {
                problems.error(
                        Place.wholeFile(file), "is larger than " + (LARGEST >> 20) + " MiB, which no site needs");
                return Optional.empty();
            }
            String text = Files.readString(folder.resolve(file), StandardCharsets.UTF_8);
            LoadSettings settings = LoadSettings.builder().setLabel(file).build();
            Optional<Node> top = new Compose(settings).composeString(text);
            if (top.isPresent() && top.get() instanceof MappingNode mapping) {
                return Optional.of(new YamlMap(file, "", mapping, problems));
            }
            problems.error(Place.wholeFile(file), "must hold keys and values, such as 'site: quillmere'");
        } catch (NoSuchFileException e) {
            problems.error(Place.wholeFile(file), "is missing in " + folder);
        } catch (CharacterCodingException e) {
            problems.error(Place.wholeFile(file), "is not UTF-8");
        } catch (IOException e) {
            problems.error(Place.wholeFile(file), "cannot be read: " + e.getMessage());
        } catch (MarkedYamlEngineException e) {
            problems.error(placeOf(file, e), "is not YAML: " + e.getProblem());
        } catch (YamlEngineException e) {
            problems.error(Place.wholeFile(file), "is not YAML: " + e.getMessage());
        }
        return Optional.empty();
    }

    private static Place placeOf(String file, MarkedYamlEngineException e) {
        return e.getProblemMark()
                .map(mark -> new Place(file, mark.getLine() + 1, mark.getColumn() + 1))
                .orElse(Place.wholeFile(file));
    }
}
