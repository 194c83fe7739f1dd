import { createCipheriv, createDecipheriv, hash, randomBytes } from 'node:crypto'

/*
 * What is kept of a picture says who is in it and how they look, so it is sealed with the hash of the picture itself:
 * who has the picture can open it, who has the cache alone can't. AES-256-GCM (NIST SP 800-38D): a damaged entry does
 * not open.
 */

const CIPHER = 'aes-256-gcm'
// NIST SP 800-38D, 5.2.1: a nonce of 96 bits and a tag of 128.
const NONCE = 12
const TAG = 16

/**
 * @param secret the hash of the picture, hex
 * @param about what else tells one entry from another: it opens as no other, wherever it is moved
 */
export function sealed(text: string, secret: string, about: string): Buffer {
  const nonce = randomBytes(NONCE)
  const cipher = createCipheriv(CIPHER, keyOf(secret), nonce).setAAD(Buffer.from(about))
  const body = Buffer.concat([cipher.update(text, 'utf8'), cipher.final()])
  return Buffer.concat([nonce, cipher.getAuthTag(), body])
}

/** The text, UTF-8; null when the secret or what it is about is another, or anything was changed. */
export function unsealed(content: Buffer, secret: string, about: string): Buffer | null {
  if (content.length < NONCE + TAG) return null
  try {
    const decipher = createDecipheriv(CIPHER, keyOf(secret), content.subarray(0, NONCE), {
      authTagLength: TAG,
    })
    decipher.setAAD(Buffer.from(about))
    decipher.setAuthTag(content.subarray(NONCE, NONCE + TAG))
    const text = decipher.update(content.subarray(NONCE + TAG))
    decipher.final()
    return text
  } catch {
    return null
  }
}

/** A name that does not tell the secret, hex. @param about what else tells one entry from another */
export function nameOf(secret: string, about: string): string {
  return hash('sha256', `name ${about}\0${secret}`)
}

function keyOf(secret: string): Buffer {
  return hash('sha256', `key\0${secret}`, 'buffer')
}
