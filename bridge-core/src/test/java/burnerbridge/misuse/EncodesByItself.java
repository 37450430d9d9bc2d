package burnerbridge.misuse;

import com.ghgande.j2mod.modbus.msg.WriteCoilRequest;

final class EncodesByItself {
    byte[] encoded() {
        return new WriteCoilRequest(1, true).getMessage();
    }
}
