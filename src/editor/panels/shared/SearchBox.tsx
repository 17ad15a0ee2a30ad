/** A field to find things by a few letters, with a button that empties it. */
import { Search, X } from 'lucide-react';
import { Button, Input, Label, SearchField } from 'react-aria-components';

export interface SearchBoxProps {
  readonly label: string;
  readonly placeholder: string;
  readonly value: string;
  readonly onChange: (value: string) => void;
}

export function SearchBox({ label, placeholder, value, onChange }: SearchBoxProps) {
  return (
    <SearchField className="search" value={value} onChange={onChange} aria-label={label}>
      <Search aria-hidden="true" className="search-icon" />
      <Label className="unseen">{label}</Label>
      <Input className="field-input" placeholder={placeholder} />
      <Button className="icon-button search-clear" aria-label="Clear the search">
        <X />
      </Button>
    </SearchField>
  );
}
