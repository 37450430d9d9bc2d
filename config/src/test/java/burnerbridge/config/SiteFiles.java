package burnerbridge.config;

import burnerbridge.config.problem.Problem;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;

/** A small site folder that is right, for tests to spoil. */
final class SiteFiles {
    static final String SITE = """
            site: quillmere
            description: an invented grower
            time-zone: Europe/Lisbon
            lines:
              annex: {tcp: {host: 127.0.0.1, port: 1502}, reply-timeout: 500 ms}
            types:
              hot-water: {points: points/hot-water.csv, numbering: data-model, order: low-word-first}
            controllers:
              boiler-1: {line: annex, unit: 1, type: hot-water, instance-base: 1000}
            bacnet: {device-instance: 711001, bind: 127.0.0.1}
            mqtt: {brokers: ['tcp://127.0.0.1:1883'], root: plant}
            write-permits: []
            """;

    static final String POINTS = """
            name,description,table,address,format,order,scale,offset,unit,role,every,stale-after,states,change,object,source,note-mine
            water-temperature,Boiler water,input-register,1,int16,,0.1,0,°C,measurement,,,,,,p. 12,seen
            oxygen,"Oxygen, wet",input-register,2,float32,high-word-first,,,%,measurement,5 s,20 s,,0.1,,p. 12,
            phase,Sequence,holding-register,0x0A,uint16,,,,,status,,,0=standby|1=purge,,,,
            flame,Flame,discrete-input,007,bit,,,,,status,,,0=off|1=on,,,,
            alarm,Common alarm,holding-register,11,bit:3,,,,,status,,,,,none,,
            starts,Starts,holding-register,12,uint16,,,,,counter,,,,,,,
            """;

    private final Path folder;

    SiteFiles(Path folder) {
        this.folder = folder;
        write("site.yaml", SITE);
        write("points/hot-water.csv", POINTS);
    }

    Path folder() {
        return folder;
    }

    SiteFiles write(String file, String text) {
        try {
            Path path = folder.resolve(file);
            Files.createDirectories(path.getParent());
            Files.writeString(path, text);
            return this;
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Replaces a text that must be there. */
    SiteFiles spoil(String file, String from, String to) {
        String text = file.equals("site.yaml") ? SITE : POINTS;
        if (!text.contains(from)) {
            throw new IllegalArgumentException("the site has no '" + from + "'");
        }
        return write(file, text.replace(from, to));
    }

    SiteFolder load() {
        return SiteFolder.load(folder);
    }

    List<String> errors() {
        return load().problems().stream()
                .filter(Problem::isError)
                .map(Problem::toString)
                .toList();
    }
}
