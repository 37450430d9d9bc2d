package burnerbridge.mqtt.access;

import burnerbridge.site.MqttSettings;
import java.io.IOException;
import java.nio.file.Path;
import java.security.GeneralSecurityException;
import java.security.KeyStore;
import java.security.PrivateKey;
import java.security.cert.X509Certificate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import javax.net.ssl.KeyManager;
import javax.net.ssl.KeyManagerFactory;
import javax.net.ssl.SSLContext;
import javax.net.ssl.SSLSocketFactory;
import javax.net.ssl.TrustManager;
import javax.net.ssl.TrustManagerFactory;
import org.jspecify.annotations.Nullable;

/** Authorities that are trusted and our own certificate, in memory only. */
final class KeyRing {
    /** A key store wants one even where it never leaves the memory. */
    private static final char[] NO_PASSWORD = {};

    private final List<Lifetime> lifetimes = new ArrayList<>();
    private TrustManager @Nullable [] trusted;
    private KeyManager @Nullable [] own;

    private KeyRing() {}

    static KeyRing of(MqttSettings.Tls tls) throws AccessException {
        KeyRing ring = new KeyRing();
        try {
            if (tls.authority().isPresent()) {
                ring.trust(tls.authority().get());
            }
            Optional<Path> certificate = tls.certificate();
            Optional<Path> key = tls.key();
            if (certificate.isPresent() && key.isPresent()) {
                ring.present(certificate.get(), key.get());
            }
        } catch (GeneralSecurityException | IOException e) {
            throw new AccessException("the certificates cannot be used: " + e.getMessage(), e);
        }
        return ring;
    }

    List<Lifetime> lifetimes() {
        return List.copyOf(lifetimes);
    }

    SSLSocketFactory sockets() throws AccessException {
        try {
            SSLContext context = SSLContext.getInstance("TLS");
            context.init(own, trusted, null);
            return context.getSocketFactory();
        } catch (GeneralSecurityException e) {
            throw new AccessException("encrypted connections cannot be made: " + e.getMessage(), e);
        }
    }

    private void trust(Path file) throws AccessException, GeneralSecurityException, IOException {
        KeyStore store = emptyStore();
        for (X509Certificate certificate : PemFile.read(file).certificates()) {
            store.setCertificateEntry("authority-" + store.size(), certificate);
            lifetimes.add(Lifetime.of(file, certificate));
        }
        TrustManagerFactory factory = TrustManagerFactory.getInstance(TrustManagerFactory.getDefaultAlgorithm());
        factory.init(store);
        trusted = factory.getTrustManagers();
    }

    private void present(Path file, Path keyFile) throws AccessException, GeneralSecurityException, IOException {
        List<X509Certificate> chain = PemFile.read(file).certificates();
        chain.forEach(certificate -> lifetimes.add(Lifetime.of(file, certificate)));
        PrivateKey key = PemFile.read(keyFile).key(chain.get(0).getPublicKey());
        KeyStore store = emptyStore();
        store.setKeyEntry("own", key, NO_PASSWORD, chain.toArray(X509Certificate[]::new));
        KeyManagerFactory factory = KeyManagerFactory.getInstance(KeyManagerFactory.getDefaultAlgorithm());
        factory.init(store, NO_PASSWORD);
        own = factory.getKeyManagers();
    }

    private static KeyStore emptyStore() throws GeneralSecurityException, IOException {
        KeyStore store = KeyStore.getInstance("PKCS12");
        store.load(null, NO_PASSWORD);
        return store;
    }
}
