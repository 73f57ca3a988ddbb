namespace Rollwright.Lessons;

/// <summary>What is asked of a lesson cannot be; the message says where and what to do.</summary>
public sealed class LessonException(string message) : Exception(message);
