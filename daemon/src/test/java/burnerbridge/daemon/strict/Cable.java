package burnerbridge.daemon.strict;

import burnerbridge.outside.OutsideProgram;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;

/** Two pseudo-terminals that socat joins. */
public final class Cable implements AutoCloseable {
    public final Path device;
    public final Path master;
    private final Process socat;

    public Cable(Path folder, String name) throws IOException {
        OutsideProgram.require("socat", "socat");
        device = folder.resolve(name + "-device");
        master = folder.resolve(name + "-master");
        socat = new ProcessBuilder(
                        "socat", "-d", "-d", "pty,raw,echo=0,link=" + device, "pty,raw,echo=0,link=" + master)
                .redirectErrorStream(true)
                .start();
        BufferedReader said = new BufferedReader(new InputStreamReader(socat.getInputStream(), StandardCharsets.UTF_8));
        String line = said.readLine();
        while (line != null && !line.contains("starting data transfer loop")) {
            line = said.readLine();
        }
        if (line == null) {
            throw new IOException("socat has ended");
        }
    }

    @Override
    public void close() {
        socat.destroy();
        try {
            socat.waitFor();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }
}
