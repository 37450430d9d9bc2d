package burnerbridge.bacnet.edge;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.bacnet.edge.coding.Hex;
import com.serotonin.bacnet4j.exception.BACnetException;
import com.serotonin.bacnet4j.npdu.NPDU;
import com.serotonin.bacnet4j.type.constructed.Address;
import com.serotonin.bacnet4j.type.constructed.ServicesSupported;
import com.serotonin.bacnet4j.util.sero.ByteQueue;
import org.junit.jupiter.api.Test;

final class WaitingRoomTest {
    private final WaitingRoom room = new WaitingRoom();

    private NPDU seat() {
        ByteQueue apdu = new ByteQueue(Hex.bytes("00 04 01 0C 0C 00 00 00 05 19 55"));
        return room.seat(new NPDU(new Address(new byte[6]), null, apdu));
    }

    @Test
    void whenAThousandWaitTheRoomIsFullUntilOneIsTaken() throws BACnetException {
        NPDU first = seat();
        for (int i = 1; i < 1000; i++) {
            assertThat(room.isFull()).isFalse();
            seat();
        }
        assertThat(room.isFull()).isTrue();
        assertThat(first.getAPDU(new ServicesSupported())).isNotNull();
        assertThat(room.isFull()).isFalse();
        seat();
        assertThat(room.isFull()).isTrue();
    }
}
