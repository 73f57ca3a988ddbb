using Rollwright.Exactness;

if (args is not [] and not [_] || (args is [var word] && !(int.TryParse(word, out var asked) && asked > 0)))
{
    Console.Error.WriteLine("Say how many questions to ask, such as 208, or nothing for 208.");
    return 2;
}
return Comparison.Run(args is [var count] ? int.Parse(count) : 208);
