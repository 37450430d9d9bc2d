package burnerbridge.simulator.demo;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Properties;

/**
 * How the bridge is started.
 *
 * @param java the program that runs Java
 * @param classPath of the daemon
 * @param site folder of the example site
 */
record Launch(String java, String classPath, Path site) {
    private static final String JAVA = "burnerbridge.java";
    private static final String CLASS_PATH = "burnerbridge.daemon.classpath";
    private static final String SITE = "burnerbridge.site";
    private static final String DAEMON = "burnerbridge.daemon.Main";

    /**
     * What the launcher passes on.
     *
     * @throws DemoException where something is missing
     */
    static Launch from(Properties properties) throws DemoException {
        Path site = Path.of(required(properties, SITE));
        if (!Files.isRegularFile(site.resolve("site.yaml"))) {
            throw new DemoException(DemoException.BAD_INPUT, SITE + ": no site.yaml in " + site);
        }
        return new Launch(required(properties, JAVA), required(properties, CLASS_PATH), site);
    }

    private static String required(Properties properties, String key) throws DemoException {
        String value = properties.getProperty(key, "");
        if (value.isBlank()) {
            throw new DemoException(
                    DemoException.BAD_INPUT,
                    "the system property " + key + " is missing; start the demo with ./burner-bridge demo");
        }
        return value;
    }

    /** The command that runs the bridge on a site folder. */
    List<String> command(Path siteFolder) {
        return List.of(java, "-cp", classPath, DAEMON, "run", siteFolder.toString());
    }
}
