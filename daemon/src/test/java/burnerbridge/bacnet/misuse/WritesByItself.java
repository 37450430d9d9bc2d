package burnerbridge.bacnet.misuse;

import burnerbridge.line.Lines;
import burnerbridge.line.WriteOutcome;
import burnerbridge.line.WriteTemplate;
import burnerbridge.model.BridgeClock;
import burnerbridge.model.Registers;
import burnerbridge.site.LineDefinition;
import burnerbridge.write.store.Disk;
import java.io.IOException;
import java.util.List;
import java.util.Map;

final class WritesByItself {
    WriteOutcome write(LineDefinition line, BridgeClock clock, WriteTemplate template) {
        return Lines.writable(line, clock, List.of(template), Map.of()).writes().write(template, Registers.of(1));
    }

    byte[] look(Disk disk) throws IOException {
        return disk.read("approval");
    }
}
