import { signal } from "@preact/signals";

/** What is being read aloud; empty while nothing is. */
export const speaking = signal("");
export const canSpeak = "speechSynthesis" in self;

/** A voice of the device itself: one that needs a network would fall silent in the shed. */
function ownVoice(): SpeechSynthesisVoice | undefined {
  const voices = speechSynthesis.getVoices().filter(({ lang }) => lang.startsWith("en"));
  return voices.find(({ localService }) => localService) ?? voices[0];
}

/** Marks that a voice would swallow or spell out, as words. */
function spoken(text: string): string {
  return text
    .replaceAll("±", " plus or minus ")
    .replaceAll("µm", " micrometres")
    .replaceAll("°", " degrees ")
    .replace(/(\d)\s*mm\b/g, "$1 millimetres")
    .replace(/(\d)\s*in\b/g, "$1 inches")
    .replaceAll("Ø", "diameter ")
    .replace(/\br\/min\b( \(rpm\))?/g, "revolutions a minute");
}

export function stopSpeaking(): void {
  if (canSpeak) speechSynthesis.cancel();
  speaking.value = "";
}

export function speak(text: string): void {
  if (!canSpeak) return;
  speechSynthesis.cancel();
  const utterance = new SpeechSynthesisUtterance(spoken(text));
  const voice = ownVoice();
  if (voice) utterance.voice = voice;
  utterance.lang = voice?.lang ?? "en-GB";
  utterance.rate = 0.9;
  utterance.onend = utterance.onerror = () => speaking.value === text && (speaking.value = "");
  speaking.value = text;
  speechSynthesis.speak(utterance);
}
