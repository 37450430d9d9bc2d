package burnerbridge.daemon;

import burnerbridge.config.SiteFolder;
import burnerbridge.config.problem.Problem;
import burnerbridge.config.problem.Problem.Severity;
import burnerbridge.model.Stamp;
import burnerbridge.mqtt.access.AccessCheck;
import burnerbridge.site.Site;
import burnerbridge.web.access.TokenCheck;
import java.util.List;
import java.util.stream.Stream;

/**
 * Looks at the files outside the site folder that the MQTT side and the port for health and metrics need. None of it is
 * an error: the bridge starts all the same, and connects once they are as they should be.
 */
final class NamedFilesCheck {
    private NamedFilesCheck() {}

    /** @param elsewhere whether neither the file nor its folder is here */
    private record Found(String key, boolean elsewhere, String sentence) {}

    static SiteFolder looked(SiteFolder folder, Stamp now) {
        List<Problem> problems = folder.site().stream()
                .flatMap(site -> found(site, now))
                .flatMap(found -> problems(folder, found))
                .toList();
        return folder.with(problems);
    }

    private static Stream<Found> found(Site site, Stamp now) {
        Stream<Found> mqtt = site.mqtt().stream()
                .flatMap(settings -> AccessCheck.of(settings, now).stream())
                .map(finding -> new Found(finding.setting().key(), finding.elsewhere(), finding.sentence()));
        Stream<Found> web = site.web().stream()
                .flatMap(settings -> TokenCheck.of(settings).stream())
                .map(finding -> new Found(TokenCheck.SETTING, finding.elsewhere(), finding.sentence()));
        return Stream.concat(mqtt, web);
    }

    /** What is nowhere here is no mistake on a machine that only writes the site. */
    private static Stream<Problem> problems(SiteFolder folder, Found found) {
        Severity severity = found.elsewhere() ? Severity.NOTE : Severity.WARNING;
        return folder.namedFiles().stream()
                .filter(file -> file.key().equals(found.key()))
                .map(file -> file.problem(severity, found.sentence()));
    }
}
