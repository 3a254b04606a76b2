const NUMBERS = ['Mass', 'Volume', 'Amount', 'Equivalents'];

export const COLUMNS = NUMBERS.length + 4;

export function ColumnHeads() {
  return (
    <thead>
      <tr>
        <th scope="col">Substance</th>
        <th scope="col">As written</th>
        {NUMBERS.map((name) => (
          <th key={name} scope="col" className="number">
            {name}
          </th>
        ))}
        <th scope="col" className="number">
          M<span className="quiet"> g/mol</span>
        </th>
        <th scope="col">Against the need</th>
      </tr>
    </thead>
  );
}
