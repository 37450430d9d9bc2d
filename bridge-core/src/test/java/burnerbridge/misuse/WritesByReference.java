package burnerbridge.misuse;

import burnerbridge.line.LineWrites;
import burnerbridge.line.WriteOutcome;
import burnerbridge.line.WriteTemplate;
import burnerbridge.model.Registers;
import java.util.function.BiFunction;

final class WritesByReference {
    BiFunction<WriteTemplate, Registers, WriteOutcome> writing(LineWrites writes) {
        return writes::write;
    }
}
