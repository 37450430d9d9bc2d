package burnerbridge.daemon;

import burnerbridge.config.SiteFolder;
import burnerbridge.config.file.NamedFile;
import burnerbridge.config.problem.Problem;
import burnerbridge.config.problem.Problem.Severity;
import burnerbridge.model.Stamp;
import burnerbridge.mqtt.access.AccessCheck;
import burnerbridge.mqtt.access.AccessCheck.Finding;
import java.util.List;
import java.util.stream.Stream;

/**
 * Looks at the files outside the site folder that the MQTT side needs. None of it is an error: the bridge
 * starts all the same, and connects once they are as they should be.
 */
final class NamedFilesCheck {
    private NamedFilesCheck() {}

    static SiteFolder looked(SiteFolder folder, Stamp now) {
        List<Problem> found = folder.site().flatMap(site -> site.mqtt()).stream()
                .flatMap(mqtt -> AccessCheck.of(mqtt, now).stream())
                .flatMap(finding -> problems(folder, finding))
                .toList();
        return folder.with(found);
    }

    private static Stream<Problem> problems(SiteFolder folder, Finding finding) {
        return folder.namedFiles().stream()
                .filter(file -> file.key().equals(finding.setting().key()))
                .map(file -> problem(file, finding));
    }

    /** What is nowhere here is no mistake on a machine that only writes the site. */
    private static Problem problem(NamedFile file, Finding finding) {
        return file.problem(finding.elsewhere() ? Severity.NOTE : Severity.WARNING, finding.sentence());
    }
}
