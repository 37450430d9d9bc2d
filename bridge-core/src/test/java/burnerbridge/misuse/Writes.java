package burnerbridge.misuse;

import burnerbridge.line.LineWrites;
import burnerbridge.line.WriteOutcome;
import burnerbridge.line.WriteTemplate;
import burnerbridge.model.Registers;

final class Writes {
    WriteOutcome write(LineWrites writes, WriteTemplate template) {
        return writes.write(template, Registers.of(1));
    }
}
