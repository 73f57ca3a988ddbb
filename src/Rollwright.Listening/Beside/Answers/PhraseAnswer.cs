using Rollwright.Listening.Beside.Meanings;

namespace Rollwright.Listening.Beside.Answers;

/// <summary>A phrase as it was played.</summary>
/// <param name="Phrase">Which.</param>
/// <param name="Counts">Of its notes.</param>
/// <param name="Speeding">How much faster it ends than it begins: 0.05 is five per cent; 0 where too little was played.</param>
public sealed record PhraseAnswer(MeantPhrase Phrase, Counts Counts, double Speeding);
