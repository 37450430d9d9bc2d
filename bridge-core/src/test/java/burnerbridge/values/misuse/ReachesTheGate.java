package burnerbridge.values.misuse;

import burnerbridge.write.store.Disk;
import java.io.IOException;

final class ReachesTheGate {
    byte[] look(Disk disk) throws IOException {
        return disk.read("approval");
    }
}
