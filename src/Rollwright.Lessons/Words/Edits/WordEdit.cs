namespace Rollwright.Lessons.Words.Edits;

/// <summary>A person's words for a phrase.</summary>
/// <param name="Phrase">The phrase's number when they were written.</param>
/// <param name="Notes">Fingerprint of the notes that they spoke about (<see cref="NotesFingerprint"/>).</param>
/// <param name="Text">Plain text or Markdown; not empty.</param>
public sealed record WordEdit(int Phrase, string Notes, string Text);
