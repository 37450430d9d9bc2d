package burnerbridge.mqtt.access;

import java.nio.charset.StandardCharsets;
import java.security.GeneralSecurityException;
import java.security.PrivateKey;
import java.security.PublicKey;
import java.security.Signature;

/** Tells whether two keys are a pair, by what one signs and the other has to believe. */
final class KeyPairs {
    private static final byte[] WORDS = "one pair".getBytes(StandardCharsets.UTF_8);

    private KeyPairs() {}

    /** @throws GeneralSecurityException where they are not of one kind */
    static boolean belongTogether(PrivateKey key, PublicKey counterpart) throws GeneralSecurityException {
        Signature signature = Signature.getInstance(signatureOf(counterpart.getAlgorithm()));
        signature.initSign(key);
        signature.update(WORDS);
        byte[] signed = signature.sign();
        signature.initVerify(counterpart);
        signature.update(WORDS);
        return signature.verify(signed);
    }

    private static String signatureOf(String algorithm) {
        return switch (algorithm) {
            case "RSA" -> "SHA256withRSA";
            case "EC" -> "SHA256withECDSA";
            default -> algorithm;
        };
    }
}
