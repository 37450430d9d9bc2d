package burnerbridge.config.file;

import burnerbridge.config.problem.Problems.Place;
import burnerbridge.config.yaml.YamlMap;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** Reads the keys that name files outside the site folder, and keeps what they name. */
final class OutsideFiles {
    private final Path folder;
    private final List<NamedFile> named = new ArrayList<>();

    /** @param folder the site folder, which is no place for secrets */
    OutsideFiles(Path folder) {
        this.folder = folder.toAbsolutePath().normalize();
    }

    /** All that were named, in the order in which they were read. */
    List<NamedFile> named() {
        return List.copyOf(named);
    }

    Optional<Path> path(YamlMap at, String key) {
        Optional<String> text = at.text(key);
        if (text.isPresent() && !text.get().matches("/\\P{Cc}*[^/\\p{Cc}]")) {
            at.error(key, "must be the whole path of a file, from / on (was '" + text.get() + "')");
            return Optional.empty();
        }
        Optional<Path> file = text.map(Path::of);
        file.ifPresent(there -> named.add(named(at, key, there)));
        return file;
    }

    private static NamedFile named(YamlMap at, String key, Path file) {
        Place place = at.placeOf(key);
        return new NamedFile(at.path(key), file, place.file(), place.line(), place.column());
    }

    /** The site folder is copied, mailed and kept in version control. */
    Optional<Path> secret(YamlMap at, String key) {
        Optional<Path> path = path(at, key);
        if (path.isPresent() && path.get().normalize().startsWith(folder)) {
            at.error(key, "must not be in the site folder, which is copied about (was '" + path.get() + "')");
            return Optional.empty();
        }
        return path;
    }
}
